"""Several values made into one: a sum, the smallest, the largest; one unknown makes it unknown."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from coordination.rules import Unknown, Value, derive


def total(values: Sequence[Value], quantity: str, symbol: str) -> Value:
    """Their sum, in their unit; a single one is itself. Each has a symbol of its own."""
    return _combined(sum, values, quantity, symbol, " + ".join(_symbols(values)) or "0")


def smallest(values: Sequence[Value], quantity: str, symbol: str) -> Value:
    """The smallest, in their unit; a single one is itself. Each has a symbol of its own."""
    return _combined(min, values, quantity, symbol, f"min({', '.join(_symbols(values))})")


def largest(values: Sequence[Value], quantity: str, symbol: str) -> Value:
    """The largest, in their unit; a single one is itself. Each has a symbol of its own."""
    return _combined(max, values, quantity, symbol, f"max({', '.join(_symbols(values))})")


def _symbols(values: Sequence[Value]) -> list[str]:
    return [value.symbol for value in values if not isinstance(value, Unknown)]


def _combined(
    how: Callable[[Any], float], values: Sequence[Value], quantity: str, symbol: str, formula: str
) -> Value:
    if len(values) == 1:
        return values[0]
    unit = next((value.unit for value in values if not isinstance(value, Unknown)), "A")
    return derive(lambda *each: how(each), quantity, symbol, unit, formula, *values)
