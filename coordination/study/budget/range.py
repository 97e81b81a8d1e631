"""A figure at its rating with its bounds, and sums of several figures."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from coordination.study.combine import KIRCHHOFF
from coordination.study.deferred import renamed
from coordination.trace import DEFINITION, Derived, Unknown, Value, derive


class Range(NamedTuple):
    """A figure as it is rated, the least and the most that it can be."""

    least: Value
    nominal: Value
    most: Value


def numbered(values: Sequence[Value], symbol: str) -> list[Value]:
    """The values under symbols of their own: I_1, I_2 ..."""
    return [
        value if isinstance(value, Unknown) else renamed(value, f"{symbol}_{number}")
        for number, value in enumerate(values, 1)
    ]


def total(values: Sequence[Value], quantity: str, symbol: str, unit: str) -> Value:
    """Their sum; one that is unknown makes it unknown, a single one is itself."""
    if len(values) == 1:
        only = values[0]
        return only if isinstance(only, Unknown) else renamed(only, symbol)
    source = KIRCHHOFF if unit == "A" else DEFINITION
    if not values:
        return Derived(f"{quantity}: none", symbol, 0.0, unit, source=source)
    formula = " + ".join(v.symbol for v in values if isinstance(v, Derived))
    return derive(lambda *each: sum(each), quantity, symbol, unit, formula, *values, source=source)
