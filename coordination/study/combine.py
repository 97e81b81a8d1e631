"""Resistances in series and parallel, sources together, a port into a short: steps by hand."""

from __future__ import annotations

from catalogue.frozen import dataclass
from coordination.study.deferred import renamed
from coordination.trace import Derived, Source

NODAL = Source("nodal analysis", "network solution")
KIRCHHOFF = Source("Kirchhoff's laws")
OHM = Source("Ohm's law")


@dataclass(frozen=True, slots=True)
class Port:
    """A network seen from a point: voltage behind resistances in series, beside a current.

    terms -- resistances from the source outwards; their sum is the Thevenin resistance
    """

    emf: Derived | None = None
    terms: tuple[Derived, ...] = ()
    current: Derived | None = None


def series(terms: tuple[Derived, ...]) -> Derived:
    """The sum of resistances in series, symbol R."""
    return summed(list(terms), "resistance of the loop", "R", "Ω")


def parallel(paths: list[Derived]) -> Derived:
    """The resistance of paths in parallel, symbol R."""
    if len(paths) == 1:
        return renamed(paths[0], "R")
    formula = "1 / (" + " + ".join(f"1 / {path.symbol}" for path in paths) + ")"
    value = 1.0 / sum(1.0 / path.value for path in paths)
    return Derived(
        "resistance of the sources' paths in parallel",
        "R",
        value,
        "Ω",
        formula,
        tuple(paths),
        KIRCHHOFF,
    )


def summed(items: list[Derived], quantity: str, symbol: str, unit: str) -> Derived:
    """The sum of values of one kind; a single one stays what it is."""
    if len(items) == 1:
        return renamed(items[0], symbol)
    if len({item.symbol for item in items}) < len(items):
        items = [renamed(item, f"{symbol}_{n}") for n, item in enumerate(items, 1)]
    return Derived(
        quantity,
        symbol,
        sum(item.value for item in items),
        unit,
        " + ".join(item.symbol for item in items),
        tuple(items),
        OHM,
    )


def shorted(port: Port, value: float, quantity: str, symbol: str = "I") -> Derived:
    """The current [A] of a port into a short, with the solver's value."""
    if port.emf is None:
        if port.current is None:
            return Derived(
                f"{quantity}: no source on this side", symbol, 0.0, "A", source=KIRCHHOFF
            )
        return renamed(port.current, symbol, value=value)
    inputs = (renamed(port.emf, "E"), series(port.terms))
    if port.current is None:
        return Derived(quantity, symbol, value, "A", "E / R", inputs, OHM)
    return Derived(
        quantity,
        symbol,
        value,
        "A",
        "E / R + I_limited",
        (*inputs, renamed(port.current, "I_limited")),
        OHM,
    )
