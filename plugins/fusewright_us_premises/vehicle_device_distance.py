"""In a vehicle the device stands close to where the supply enters the circuit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import (
    Card,
    Judgement,
    Rule,
    Source,
    Unknown,
    Value,
    capped,
    compare,
    given,
    rule,
)
from fusewright_us_premises.editions import Y2023, Edition, dated
from fusewright_us_premises.scope import in_vehicle
from fusewright_us_premises.vehicles import not_low_voltage
from fusewright_us_premises.walk import batteries, reach

CLAUSE = "551.10(E)(4)"
#: 18 in [m]; the code prints 450 mm beside it and holds either for compliance.
LARGEST = 0.4572
CARD = Card(
    name="vehicle-device-distance",
    title="Vehicle device within 18 in of the supply",
    why="551.10(E)(4): the device stands in an accessible place within 18 in (450 mm) of the point "
    "where the supply is joined to the vehicle's circuits.",
    wrong="The battery under the bonnet, its fuse in the dinette.",
    right="The fuse moved to the battery, the length taken along the conductor.",
    severity="paperwork",
    basis="standard",
    source=Y2023.source(CLAUSE),
)


def of(edition: Edition) -> Rule:
    """The rule in this edition."""
    source = edition.source(CLAUSE)

    @rule(dated(CARD, source), each="device")
    def vehicle_device_distance(device: Any, study: Any) -> Iterator[Judgement]:
        """Conductor between each battery that reaches the device bare, and the device."""
        if not in_vehicle(study):
            return
        runs = [run for end in ("start", "end") for run in _runs(device, end, study)]
        if runs and (outside := not_low_voltage(device.start, study, source)) is not None:
            yield outside
            return
        limit = given("largest distance from the supply", "l_max", LARGEST, "m", source, "18 in")
        for run in runs:
            yield capped(compare(run, at_most=limit))

    return vehicle_device_distance


def _runs(device: Any, end: str, study: Any) -> Iterator[Value]:
    """Conductor length [m] from each battery that reaches this end with no device between."""
    point = device.start if end == "start" else device.end
    lengths = reach(point, study, lambda each: each is not device and each.kind not in _DEVICES)
    for battery in batteries(lengths, study):
        drawn = lengths[battery.name]
        stated = device.distance
        words = f"conductor from {battery.name} to {device.name}"
        if stated is not None and stated >= drawn:
            text = device.written.get("distance", "")
            source = Source("system file", f"{device.name}: distance")
            yield given(words, "l", stated, "m", source, text)
        elif drawn:
            yield given(words, "l", drawn, "m", Source("system file", "lengths of the cables"))
        else:
            yield Unknown(words, (f"{device.name}: distance from {battery.name}",))


_DEVICES = ("fuse", "breaker")
