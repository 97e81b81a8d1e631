"""A battery's device must stand as near to its terminals as practicable."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import (
    Card,
    Derived,
    Judgement,
    Rule,
    capped,
    fail,
    passed,
    rule,
    unproven,
)
from coordination.rules.kit.editions import dated
from fusewright_us_premises.editions import Y2023, Edition
from fusewright_us_premises.options import asked, stated
from fusewright_us_premises.supply_run import supply_runs

CLAUSE = "240.21(H)"
CARD = Card(
    name="device-location",
    title="The battery's device is at the battery",
    why="240.21(H): the overcurrent device of battery conductors is as near to the terminals as "
    "practicable; what lies ahead of it is protected by nothing. No length is given: whether a "
    "nearer place was practicable, a person must say.",
    wrong="Three metres of cable along a wall before the first fuse.",
    right="The device at the battery, or the reason why it cannot be.",
    severity="paperwork",
    basis="standard",
    source=Y2023.source(CLAUSE),
)


def of(edition: Edition) -> Rule:
    """The rule in this edition."""

    @rule(dated(CARD, edition.source(CLAUSE)), each="device")
    def device_location(device: Any, study: Any) -> Iterator[Judgement]:
        """For each device that a battery reaches bare: what was stated, and the run ahead of it."""
        for run in supply_runs(device, study):
            if isinstance(run, Derived) and run.value == 0.0:
                yield passed("at the battery's terminal")
            else:
                yield _stated(run, study)

    return device_location


def _stated(run: Any, study: Any) -> Judgement:
    length = f"{run.value * 1000:.0f} mm" if isinstance(run, Derived) else "an unstated length"
    near = stated(study, "devices_at_batteries")
    if near:
        return passed(f"{length} of conductor ahead of it, stated to be as near as practicable")
    if near is None:
        return unproven(asked("devices_at_batteries"), reason=f"{length} of conductor ahead of it")
    return capped(fail(f"{length} of conductor ahead of it, and a nearer place was practicable"))
