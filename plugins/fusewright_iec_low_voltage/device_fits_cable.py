"""A device's rated current must not be above the ampacity of the cable it protects."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Any

from coordination.rules import Card, Judgement, Value, capped, compare, fail, rule
from fusewright_iec_low_voltage.conductor import against_ampacity
from fusewright_iec_low_voltage.guard import Bare, guards, rated
from fusewright_iec_low_voltage.parts_of_standard import overcurrent

CARD = Card(
    name="device-fits-cable",
    title="Rated current within the cable's ampacity",
    why="433.1: In ≤ Iz, with no next size up. Where several devices feed a cable that has none of "
    "its own, their ratings add up.",
    wrong="A 63 A fuse on a cable that its conduit leaves 57 A.",
    right="A smaller device or a larger cable. Where 433.3 or 434.3 lets a device be omitted, a "
    "person decides.",
    severity="paperwork",
    basis="standard",
    source=overcurrent("433.1, In ≤ Iz"),
)


@rule(CARD, each="cable")
def device_fits_cable(cable: Any, study: Any) -> Iterator[Judgement]:
    """Rated current of what protects the cable against the ampacity of each leg."""
    found = guards(cable, study)
    if isinstance(found, Bare):
        yield capped(fail(f"no device protects it from {', '.join(found.batteries)}"))
        return
    for device in map(rated, found):
        yield from against_ampacity(cable, study, partial(_judged, device))


def _judged(device: Value, limit: Value) -> Judgement:
    return capped(compare(device, at_most=limit))
