"""A device's rated current must not be below the load it carries."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, capped, compare, rule
from fusewright_iec_low_voltage.guard import device_rating
from fusewright_iec_low_voltage.parts_of_standard import overcurrent

CARD = Card(
    name="device-carries-load",
    title="Rated current covers the design current",
    why="433.1: Ib ≤ In. A device below its load opens for no fault.",
    wrong="A 63 A fuse for an inverter that draws 70 A when the battery is low.",
    right="The next rating that the cable still allows.",
    severity="paperwork",
    basis="standard",
    source=overcurrent("433.1, Ib ≤ In"),
)


@rule(CARD, each="device")
def device_carries_load(device: Any, study: Any) -> Judgement:
    """Largest design current against the rated current."""
    return capped(compare(study.load(device), at_most=device_rating(device)))
