"""In a vehicle, each size of low-voltage conductor has a largest device."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import Any

from coordination.rules import Card, Judgement, Rule, capped, fail, rule
from coordination.rules.kit.editions import dated
from coordination.rules.kit.installed import installations
from fusewright_us_premises import tables
from fusewright_us_premises.editions import Y2023, Edition
from fusewright_us_premises.guard import Bare, guards
from fusewright_us_premises.scope import in_vehicle
from fusewright_us_premises.small_conductors import device_by_size
from fusewright_us_premises.starters import starts_engine
from fusewright_us_premises.vehicles import not_low_voltage

CLAUSE = "551.10(E)(1)"
CARD = Card(
    name="vehicle-overcurrent",
    title="Vehicle circuits up to 24 V have the device of their size",
    why="551.10(E)(1): 18 AWG 6 A, 16 AWG 8 A, 14 AWG 15 A, 12 AWG 20 A, 10 AWG 30 A; larger "
    "conductors by their ampacity.",
    wrong="A 20 A blade fuse on 16 AWG to a water pump.",
    right="The device of the table, or a larger conductor.",
    severity="paperwork",
    basis="standard",
    source=Y2023.source(CLAUSE),
)


def of(edition: Edition) -> Rule:
    """The rule in this edition."""
    source = edition.source(CLAUSE)

    @rule(dated(CARD, source), each="cable")
    def vehicle_overcurrent(cable: Any, study: Any) -> Iterator[Judgement]:
        """The device's rating against the table, for each leg thinner than 8 AWG."""
        found = guards(cable, study)
        if not in_vehicle(study) or not found:
            return
        if (outside := not_low_voltage(cable.start, study, source)) is not None:
            yield outside
            return
        if isinstance(found, Bare):
            if not starts_engine(cable, study):
                yield capped(fail(f"no device protects it from {', '.join(found.batteries)}"))
            return
        for each, leg in product(found, installations(cable, study)):
            rows = tables.vehicle_overcurrent()
            yield from device_by_size(each.current, leg.area, rows, source)

    return vehicle_overcurrent
