"""What lies between a battery and its device must be short, and hard to damage."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import (
    Card,
    Derived,
    Judgement,
    Value,
    capped,
    compare,
    fail,
    given,
    passed,
    rule,
    unproven,
)
from fusewright_iec_low_voltage.parts_of_standard import overcurrent
from fusewright_iec_low_voltage.supply_run import supply_runs
from fusewright_iec_low_voltage.walk import reach

#: Longest conductor [m] ahead of its device.
LONGEST = 3.0
CARD = Card(
    name="device-position",
    title="At most 3 m ahead of the device, well protected",
    why="434.2.1: a conductor ahead of its device is at most 3 m long, laid so that a short "
    "circuit is unlikely, and not near anything that burns. Sheathed counts as so laid; what "
    "burns is not judged.",
    wrong="Single cores, bare of any sheath, from the battery to a fuse at the far wall.",
    right="The device at the battery, or a short run in a sheath or conduit.",
    severity="paperwork",
    basis="standard",
    source=overcurrent("434.2.1"),
)


@rule(CARD, each="device")
def device_position(device: Any, study: Any) -> Iterator[Judgement]:
    """The run ahead of each device that a battery reaches bare: its length, then its sheath."""
    limit = given("longest run ahead of a device", "l_max", LONGEST, "m", CARD.source, "3 m")
    for run in supply_runs(device, study):
        if isinstance(run, Derived) and run.value == 0.0:
            yield passed("at the battery's terminal")
            continue
        yield capped(compare(run, at_most=limit))
        if isinstance(run, Derived):
            yield _laid(run, device, study)


def _laid(run: Value, device: Any, study: Any) -> Judgement:
    """Whether all that is drawn ahead of the device, and the device's own run, is sheathed."""
    cables = _ahead(device, study) or (device,)
    bare = [each.name for each in cables if each.sheathed is False]
    if bare:
        return capped(fail(f"not sheathed: {', '.join(bare)}", found=run))
    unknown = [f"{each.name}: sheathed" for each in cables if each.sheathed is None]
    return unproven(*unknown) if unknown else passed("sheathed all the way")


def _ahead(device: Any, study: Any) -> tuple[Any, ...]:
    """Cables between the device and the batteries that reach it bare."""
    ends = (device.start, device.end)
    met = [reach(end, study, lambda each: each is not device and _carries(each)) for end in ends]
    zones = [zone for zone in met if any(_battery(point, study) for point in zone)]
    return tuple(
        element
        for element in study.system.elements()
        if element.kind == "cable"
        and study.closed(element)
        and any(element.start in zone and element.end in zone for zone in zones)
    )


def _carries(element: Any) -> bool:
    return bool(element.kind not in ("fuse", "breaker"))


def _battery(point: str, study: Any) -> bool:
    source = study.system.sources.get(point)
    return source is not None and source.part is not None and point not in study.condition.without
