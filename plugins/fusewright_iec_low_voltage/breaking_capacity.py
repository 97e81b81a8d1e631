"""A device must break the largest fault current at its place."""

from __future__ import annotations

from typing import Any

from coordination.rules import (
    Card,
    Judgement,
    capped,
    compare,
    rule,
)
from coordination.rules.kit.interrupt_row import interrupt_rating_at
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
    capacity = interrupt_rating_at(device.part, highest, "breaking capacity", "I_cn")
    return capped(compare(study.duty(device), at_most=capacity))
