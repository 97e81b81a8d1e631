"""What lies between a battery and its device must be short, and hard to damage."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import (
    Card,
    Derived,
    Judgement,
    capped,
    compare,
    fail,
    given,
    passed,
    rule,
    unproven,
)
from fusewright_iec_low_voltage.parts_of_standard import overcurrent
from fusewright_iec_low_voltage.supply_run import Run, supply_runs

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
        if isinstance(run.length, Derived) and run.length.value == 0.0:
            yield passed("at the battery's terminal")
            continue
        yield capped(compare(run.length, at_most=limit))
        if isinstance(run.length, Derived):
            yield _laid(run, device)


def _laid(run: Run, device: Any) -> Judgement:
    """Whether every cable drawn on the way, or else the device's own run, is sheathed."""
    on_the_way = run.cables or (device,)
    bare = [each.name for each in on_the_way if each.sheathed is False]
    if bare:
        return capped(fail(f"not sheathed: {', '.join(bare)}", found=run.length))
    unknown = [f"{each.name}: sheathed" for each in on_the_way if each.sheathed is None]
    return unproven(*unknown) if unknown else passed("sheathed all the way")
