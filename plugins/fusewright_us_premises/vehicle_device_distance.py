"""In a vehicle the device stands close to where the supply enters the circuit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import (
    Card,
    Judgement,
    Rule,
    capped,
    compare,
    given,
    rule,
)
from coordination.rules.kit.editions import dated
from fusewright_us_premises.editions import Y2023, Edition
from fusewright_us_premises.scope import in_vehicle
from fusewright_us_premises.supply_run import supply_runs
from fusewright_us_premises.vehicles import not_low_voltage

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
        runs = list(supply_runs(device, study))
        if runs and (outside := not_low_voltage(device.start, study, source)) is not None:
            yield outside
            return
        limit = given("largest distance from the supply", "l_max", LARGEST, "m", source, "18 in")
        for run in runs:
            yield capped(compare(run, at_most=limit))

    return vehicle_device_distance
