"""A device must be able to break the largest fault current that can flow through it.

The rating is taken at the lowest listed voltage that covers the system's highest voltage; it is
never interpolated. Which current that is, is the study's business.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import (
    COMMON_PRACTICE,
    ROUNDING,
    Card,
    Derived,
    Judgement,
    Source,
    Unknown,
    Value,
    compare,
    derive,
    given,
    note,
    rule,
)

CARD = Card(
    name="interrupt-rating",
    title="The device can break the fault current",
    why="Above its interrupt rating a device does not put the arc out: it bursts or burns on.",
    wrong="A rating of 10 kA at 14 V relied on at 28 V, or a branch fuse of 1 kA on the main bus.",
    right="A device whose rating at this voltage or above is at least its duty, at the same place.",
    severity="fire",
    source=Source("NFPA 70:2023", clause="110.9", read=False),
)


@rule(CARD, each=("device", "channel"))
def interrupt_rating(device: Any, study: Any) -> Judgement:
    """Electronics that may fail closed are no interrupter and are only noted."""
    if device.kind == "channel" and device.part.fails_shorted is not False:
        return note(
            "its electronics are not counted as a fault interrupter", source=COMMON_PRACTICE
        )
    voltage = study.voltage_max(device)
    if isinstance(voltage, Derived) and (beyond := _beyond_every_rating(device.part, voltage)):
        return beyond
    return compare(study.duty(device), at_most=_rating(device.part, voltage))


def _beyond_every_rating(part: Any, voltage: Derived) -> Judgement | None:
    """The fail of a part that has interrupt ratings, but none at this voltage."""
    if not part.interrupt_ratings or any(_covers(row, voltage) for row in part.interrupt_ratings):
        return None
    place, _row = max(enumerate(part.interrupt_ratings), key=lambda each: each[1].voltage)
    highest = _stated(part, place, "voltage", "highest voltage of its interrupt ratings", "V")
    return compare(voltage, at_most=highest, reason="no interrupt rating at this voltage or above")


def _rating(part: Any, voltage: Value) -> Value:
    """Interrupt rating [A] at the lowest listed voltage that covers the system's."""
    if isinstance(voltage, Unknown):
        return Unknown("interrupt rating", voltage.missing, voltage.known)
    rows = [(n, row) for n, row in enumerate(part.interrupt_ratings) if _covers(row, voltage)]
    if not rows:
        missing = f"{part.id}: interrupt_ratings at >= {voltage.value:g} V"
        return Unknown("interrupt rating", (missing,), (voltage,))
    place, _row = min(rows, key=lambda each: (each[1].voltage, each[1].current))
    return derive(
        lambda current, _listed, _highest: current,
        "interrupt rating",
        "I_r",
        "A",
        f"I_listed at U_listed ≥ {voltage.symbol}",
        _stated(part, place, "current", "listed interrupt rating", "A"),
        _stated(part, place, "voltage", "voltage it is listed at", "V"),
        voltage,
        source=COMMON_PRACTICE,
    )


def _covers(row: Any, voltage: Derived) -> bool:
    return bool(voltage.value <= row.voltage * (1 + ROUNDING))


def _stated(part: Any, place: int, column: str, quantity: str, unit: str) -> Derived:
    path = f"interrupt_ratings.{place}.{column}"
    symbol = "I_listed" if column == "current" else "U_listed"
    value = getattr(part.interrupt_ratings[place], column)
    source = Source("part data", f"{part.id}: {path}")
    return given(quantity, symbol, value, unit, source, part.written.get(path, ""))
