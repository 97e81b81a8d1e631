"""What is asked of a part's figures: "rated_voltage >= 32 V", "12 kA @ 28.8 V".

Bounds are asked for certain: a band is at least so much by its `min`, at most by its `max`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any, Final, NamedTuple

from catalogue.errors import CatalogueError
from catalogue.layout import columns_of, described
from catalogue.near_miss import hint_of
from catalogue.parts import KINDS
from catalogue.quantities import QuantityError, parse

_OPERATORS: Final = (">=", "<=", ">", "<", "=")
_OPERATOR: Final = re.compile(r"\s*(>=|=>|≥|<=|=<|≤|>|<|==?)\s*(.+)", re.DOTALL)
_CONDITION: Final = re.compile(
    r"\s*([\w.]+)\s*(>=|=>|≥|<=|=<|≤|>|<|==?)\s*(.+)", re.DOTALL
)
_SAME: Final = {"=>": ">=", "≥": ">=", "=<": "<=", "≤": "<=", "==": "="}
#: Shorter names that say which field is meant, by kind where it differs.
_SHORT: Final = {
    "current": ("rated_current",),
    "voltage": ("rated_voltage", "voltage", "nominal_voltage"),
}
#: Share by which a figure may differ from the one asked for and still be equal: its rounding.
ROUNDING: Final = 1e-9


class Condition(NamedTuple):
    """One bound on one column of the table of a kind; for an interrupt rating, at a voltage.

    column -- of the kind's table; "interrupt" for the rating that counts at `voltage`
    """

    column: str
    operator: str
    value: float
    voltage: float | None = None


class Measure(NamedTuple):
    """A numeric field: its columns for "at least" and "at most", and its dimension."""

    least: str
    most: str
    dimension: str


def measures(kind: str) -> dict[str, Measure]:
    """The numeric fields of a kind, by name: "rated_current", "resistance.max" ..."""
    found: dict[str, Measure] = {}
    for field in described(kind):
        name, meta = field.name, field.metadata
        shape = meta["shape"]
        if shape in ("quantity", "whole"):
            found[name] = Measure(name, name, meta.get("dimension", "whole"))
        elif shape == "band":
            low, high = columns_of(field)
            found[name] = Measure(low, high, meta["dimension"])
            found[f"{name}.min"] = Measure(low, low, meta["dimension"])
            found[f"{name}.max"] = Measure(high, high, meta["dimension"])
        elif shape == "mapping":
            for (part, dimension), column in zip(meta["columns"], columns_of(field), strict=True):
                found[f"{name}.{part}"] = Measure(column, column, dimension)
        elif shape == "discharge":
            parts = (("continuous", "current"), ("peak.current", "current"), ("peak.time", "time"))
            for (part, dimension), column in zip(parts, columns_of(field), strict=True):
                found[f"{name}.{part}"] = Measure(column, column, dimension)
    return found


def measure_of(kind: str, name: str) -> Measure:
    """The numeric field of that name, or of a short one. Raises CatalogueError with a near miss."""
    known = measures(kind)
    for full in (name, *_SHORT.get(name, ())):
        if full in known:
            return known[full]
    hint = hint_of(name, known) or f"it has {', '.join(known)}"
    raise CatalogueError(f"a {kind} has no measure {name[:40]!r}; {hint}")


def where(kind: str, text: str) -> Condition:
    """ "rated_voltage >= 32 V" as a condition. Raises CatalogueError."""
    match = _CONDITION.fullmatch(text)
    if match is None:
        what = f"{text[:60]!r} is no condition"
        raise CatalogueError(f"{what}; write 'rated_voltage >= 32 V' ({', '.join(_OPERATORS)})")
    if match[1] == "interrupt":
        return interrupt(kind, f"{match[2]} {match[3]}")
    return bound(kind, match[1], f"{match[2]} {match[3]}")


def bound(kind: str, name: str, text: str) -> Condition:
    """ ">=250 A" of a field as a condition; without a sign: equal. Raises CatalogueError."""
    operator, said = _split(text)
    measure = measure_of(kind, name)
    value = _value(name, said, measure.dimension)
    column = measure.most if operator in ("<", "<=") else measure.least
    return Condition(column, operator, value)


def interrupt(kind: str, text: str) -> Condition:
    """ ">=12 kA @ 28.8 V" as a condition on the interrupt rating that counts at that voltage.

    Raises CatalogueError.
    """
    if not any(field.name == "interrupt_ratings" for field in described(kind)):
        having = [each for each in KINDS if any(
            field.name == "interrupt_ratings" for field in described(each))]  # fmt: skip
        what = f"a {kind} has no interrupt ratings"
        raise CatalogueError(f"{what}; these have: {', '.join(having)}")
    operator, said = _split(text, missing=">=")
    if operator not in (">=", ">"):
        raise CatalogueError("an interrupt rating is asked for as at least so much: >=")
    current, sign, voltage = said.partition("@")
    if not sign:
        what = f"{text[:60]!r} says no voltage; a rating counts at a voltage only"
        raise CatalogueError(f"{what}: --interrupt '>=12 kA @ 28.8 V'")
    at = _value("interrupt", voltage.strip(), "voltage")
    return Condition("interrupt", operator, _value("interrupt", current.strip(), "current"), at)


def _split(text: str, missing: str = "=") -> tuple[str, str]:
    match = _OPERATOR.fullmatch(text)
    if match is None:
        return missing, text.strip()
    return _SAME.get(match[1], match[1]), match[2].strip()


def _value(name: str, text: str, dimension: str) -> float:
    if dimension == "whole":
        if not (text.isascii() and text.isdigit() and len(text) < 9):
            raise CatalogueError(f"{name} wants a whole number, not {text[:40]!r}")
        return float(text)
    try:
        return parse(text, dimension)
    except QuantityError as error:
        raise CatalogueError(f"{name}: {error}") from error


def sql_of(conditions: Iterable[Condition]) -> tuple[str, list[Any]]:
    """The conditions as SQL on the table of a kind, called `own`, and their values.

    A figure that was computed from what is written may miss the one asked for by its rounding.
    """
    clauses, values = [], []
    for column, operator, value, voltage in conditions:
        if voltage is not None:
            # The row of the lowest listed voltage that is no less; never interpolated.
            clauses.append(
                "(SELECT current FROM interrupt_rating AS row WHERE row.part_key = own.key "
                f"AND row.voltage >= ? ORDER BY row.voltage LIMIT 1) {operator} ?"
            )
            values += [voltage * (1 - ROUNDING), _nudged(value, operator)]
        elif operator == "=":
            low, high = sorted((value * (1 - ROUNDING), value * (1 + ROUNDING)))
            clauses.append(f"own.{column} BETWEEN ? AND ?")
            values += [low, high]
        else:
            clauses.append(f"own.{column} {operator} ?")
            values.append(_nudged(value, operator))
    return " AND ".join(clauses), values


def _nudged(value: float, operator: str) -> float:
    """The bound, moved by a rounding so that an equal figure is on the right side of it."""
    down = operator in (">=", "<")
    return value - abs(value) * ROUNDING if down else value + abs(value) * ROUNDING
