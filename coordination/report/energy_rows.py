"""What the energy report says of each condition, as values: text, answer and papers share it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.trace import COMMON_PRACTICE, Derived, Source, Unknown

if TYPE_CHECKING:
    from coordination.trace import Value

#: Where a current comes from that somebody measured.
MEASURED = Source("measured", "stated on the command line")

#: What no figure of this report holds.
NOT_COMPUTED = (
    "the taper at the end of a charge: times to full are bulk only, and take longer",
    "self-discharge, and what battery electronics draw themselves",
    "what a battery loses by age, beyond the capacity tolerance that its part states",
    "sun, wind and hours of engine running: a source gives its limit while it charges",
)


class Measured(NamedTuple):
    """A current [A] that was measured at a bank; `battery` is one of its batteries, or empty."""

    battery: str
    current: float
    written: str


class Run(NamedTuple):
    """One way to draw from a bank: what it is, the current, and the run time."""

    words: str
    current: Any
    time: Any


class BankRow(NamedTuple):
    """One bank in one condition."""

    name: str
    usable: Any
    energy: Value
    loads: tuple[Any, ...]
    runs: tuple[Run, ...]
    recharges: tuple[Any, ...]
    shares: tuple[Any, ...]
    charging: tuple[tuple[str, Value, Value], ...]
    joinings: tuple[Any, ...]


class SupplyRow(NamedTuple):
    """What is asked of an alternator or drawn beside a converter, and what may be given."""

    name: str
    asked: Value
    gives: Value


class LinkRow(NamedTuple):
    """What may flow over a switch that is closed in this condition."""

    name: str
    flows: Any


class ConditionRow(NamedTuple):
    """One condition."""

    banks: tuple[BankRow, ...]
    supplies: tuple[SupplyRow, ...]
    balances: tuple[SupplyRow, ...]
    links: tuple[LinkRow, ...]


def energy_rows(
    studies: Mapping[str, Any], measured: tuple[Measured, ...] = ()
) -> dict[str, ConditionRow]:
    """What there is to say, by condition."""
    return {
        name: ConditionRow(
            tuple(_bank(bank, study, _of(bank, study, measured)) for bank in study.banks()),
            tuple(_supplies(study)),
            tuple(_balances(study)),
            tuple(_links(study)),
        )
        for name, study in studies.items()
    }


def _of(bank: Any, study: Any, measured: tuple[Measured, ...]) -> tuple[Measured, ...]:
    """The measured currents of a bank; one that names no battery is of the largest bank."""
    own = {source.name for source in bank.sources}
    largest = bank == max(study.banks(), key=_size)
    return tuple(m for m in measured if m.battery in own or (not m.battery and largest))


def _size(bank: Any) -> float:
    return sum(float(part.capacity or 0.0) * (part.nominal_voltage or 0.0) for part in bank.parts)


def _bank(bank: Any, study: Any, measured: tuple[Measured, ...]) -> BankRow:
    return BankRow(
        bank.name,
        study.usable(bank),
        study.usable_energy(bank),
        study.loads_of(bank),
        tuple(_runs(bank, study, measured)),
        study.recharges(bank),
        study.shares(bank) if len(bank.sources) > 1 else (),
        tuple(
            (source.name, study.charging_current(source), study.charge_limit(source))
            for source in bank.sources
            if study.recharges(bank)
        ),
        study.joinings(bank),
    )


def _runs(bank: Any, study: Any, measured: tuple[Measured, ...]) -> Iterator[Run]:
    average = study.average_load(bank)
    yield Run("as designed, on average", average, study.run_time(bank))
    peak = average._replace(
        least=study.at_once(bank), nominal=study.at_once(bank), most=study.at_once(bank)
    )
    yield Run("everything at once", peak, study.run_time(bank, peak))
    if not measured:
        return
    values = [
        Derived("measured current", "I", each.current, "A", source=MEASURED, written=each.written)
        for each in measured
    ]
    least, most = (how(values, key=lambda value: value.value) for how in (min, max))
    mean = values[0] if len(values) == 1 else _mean(values)
    found = average._replace(least=least, nominal=mean, most=most)
    words = "as measured" if len(values) == 1 else f"as measured, mean of {len(values)}"
    yield Run(words, found, study.run_time(bank, found))


def _mean(values: list[Derived]) -> Derived:
    named = tuple(value.renamed(f"I_{number}") for number, value in enumerate(values, 1))
    formula = f"({' + '.join(value.symbol for value in named)}) / {len(named)}"
    mean = sum(value.value for value in named) / len(named)
    return Derived("mean of what was measured", "I", mean, "A", formula, named, COMMON_PRACTICE)


def _supplies(study: Any) -> Iterator[SupplyRow]:
    """Sources that state what they may give for hours."""
    for source in study.system.sources.values():
        stated = source.continuous is not None or source.derating or source.regulated is not None
        if source.part is None and stated and source.name not in study.condition.without:
            yield SupplyRow(source.name, study.asked_of(source), study.continuous(source))


def _balances(study: Any) -> Iterator[SupplyRow]:
    for converter in study.system.converters.values():
        balance = study.start_balance(converter)
        if balance is not None:
            yield SupplyRow(converter.name, balance.drawn, balance.given)


def _links(study: Any) -> Iterator[LinkRow]:
    for element in study.subjects("disconnect"):
        if element.normally_open and (flows := study.equalising(element)):
            yield LinkRow(element.name, flows)


def known(value: Value) -> float | None:
    """The number of a value; None where it is unknown."""
    return None if isinstance(value, Unknown) else value.value
