"""A device must break the largest fault current at its place."""

from __future__ import annotations

from typing import Any

from coordination.rules import (
    ROUNDING,
    Card,
    Derived,
    Judgement,
    Source,
    Unknown,
    Value,
    capped,
    compare,
    derive,
    given,
    rule,
)
from fusewright_iec_low_voltage.parts_of_standard import overcurrent

CARD = Card(
    name="breaking-capacity",
    title="Breaking capacity covers the prospective fault current",
    why="434.5.1: the rated breaking capacity is not less than the prospective short-circuit "
    "current at the device's place. A device that relies on another one upstream is not known.",
    wrong="A 6 kA breaker at a lithium bank that delivers 9 kA.",
    right="A fuse or breaker whose DC breaking capacity at this voltage is enough.",
    severity="paperwork",
    basis="standard",
    source=overcurrent("434.5.1"),
)


@rule(CARD, each="device")
def breaking_capacity(device: Any, study: Any) -> Judgement:
    """Largest current through the device for a fault at a terminal against its capacity.

    The row of the lowest listed voltage that covers the highest one; never interpolated.
    """
    highest = study.voltage_max(device)
    return capped(compare(study.duty(device), at_most=_capacity(device.part, highest)))


def _capacity(part: Any, highest: Value) -> Value:
    if isinstance(highest, Unknown):
        return Unknown("breaking capacity", highest.missing, highest.known)
    rows = [
        (row.voltage, row.current, place)
        for place, row in enumerate(part.interrupt_ratings)
        if highest.value <= row.voltage * (1 + ROUNDING)
    ]
    if not rows:
        missing = f"{part.id}: interrupt_ratings at >= {highest.value:g} V"
        return Unknown("breaking capacity", (missing,), (highest,))
    voltage, current, place = min(rows)
    return derive(
        lambda i, _u, _h: i, "breaking capacity", "I_cn", "A",
        f"I_listed at U_listed ≥ {highest.symbol}",
        _stated(part, place, "current", current, "listed breaking capacity", "I_listed", "A"),
        _stated(part, place, "voltage", voltage, "voltage it is listed at", "U_listed", "V"),
        highest,
    )  # fmt: skip


def _stated(
    part: Any, place: int, field: str, value: float, quantity: str, symbol: str, unit: str
) -> Derived:
    path = f"interrupt_ratings.{place}.{field}"
    source = Source("part data", f"{part.id}: {path}")
    return given(quantity, symbol, value, unit, source, part.written.get(path, ""))
