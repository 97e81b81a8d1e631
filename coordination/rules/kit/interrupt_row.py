"""What a device is listed to break at a voltage.

The row of the lowest listed voltage that covers the system's; ratings are never interpolated.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import ROUNDING, Derived, Source, Unknown, Value, derive, given


def interrupt_rating_at(
    part: Any,
    voltage: Value,
    quantity: str = "interrupt rating",
    symbol: str = "I_r",
    source: Source | None = None,
) -> Value:
    """The listed current [A] at the lowest listed voltage that covers this one [V].

    Unknown, naming the part, where it lists none for this voltage or above.
    """
    if isinstance(voltage, Unknown):
        return Unknown(quantity, voltage.missing, voltage.known)
    rows = [(n, row) for n, row in enumerate(part.interrupt_ratings) if covers(row, voltage)]
    if not rows:
        missing = f"{part.id}: interrupt_ratings at >= {voltage.value:g} V"
        return Unknown(quantity, (missing,), (voltage,))
    place, _row = min(rows, key=lambda each: (each[1].voltage, each[1].current))
    return derive(
        lambda current, _listed, _highest: current,
        quantity, symbol, "A", f"I_listed at U_listed ≥ {voltage.symbol}",
        listed(part, place, "current", f"listed {quantity}"),
        listed(part, place, "voltage", "voltage it is listed at"),
        voltage, source=source,
    )  # fmt: skip


def covers(row: Any, voltage: Derived) -> bool:
    """Whether a row's voltage [V] is at least this one, rounding aside."""
    return bool(voltage.value <= row.voltage * (1 + ROUNDING))


def listed(part: Any, place: int, column: str, quantity: str) -> Derived:
    """One figure of a part's list: "current" [A] or "voltage" [V] of the row at this place."""
    path = f"interrupt_ratings.{place}.{column}"
    symbol, unit = ("I_listed", "A") if column == "current" else ("U_listed", "V")
    value = getattr(part.interrupt_ratings[place], column)
    source = Source("part data", f"{part.id}: {path}")
    return given(quantity, symbol, value, unit, source, part.written.get(path, ""))
