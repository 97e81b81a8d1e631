"""A device within 200 mm of the battery, or a covered conductor where that is impractical."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import (
    Card,
    Derived,
    Judgement,
    Rule,
    Unknown,
    capped,
    compare,
    fail,
    given,
    note,
    passed,
    unproven,
)
from coordination.rules.kit.editions import dated
from coordination.rules.kit.zone import zone
from fusewright_iso_small_craft.battery_runs import Run, runs
from fusewright_iso_small_craft.editions import Y2020, Edition
from fusewright_iso_small_craft.options import asked, stated
from fusewright_iso_small_craft.scope import iso_rule
from fusewright_iso_small_craft.walk import of_starter

CARD = Card(
    name="device-placement",
    title="Device within 200 mm of the battery",
    why="Between battery and device nothing opens a fault. 200 mm, and a protective covering from "
    "source to device where so near is impractical, are from memory.",
    wrong="A fuse at the panel, a bare metre from the battery; 8 in taken for 200 mm.",
    right="A fuse or a manually reset trip-free breaker within 200 mm along the conductor; 7 in "
    "is 178 mm and inside.",
    severity="paperwork",
    source=Y2020.own(y2012="8.1", y2020="12.1"),
    basis="standard",
)
NEARER = "a place within 200 mm of the battery is impractical"
SUPPORTED = "cables of engine starters are sheathed, or supported against chafe and contact"


def of(edition: Edition) -> Rule:
    """The rule in this edition."""
    source = edition.own(y2012="8.1", y2020="12.1")
    limit = given("longest conductor up to the device", "l_max", 0.2, "m", source, "200 mm")

    @iso_rule(dated(CARD, source), each="source")
    def device_placement(battery: Any, study: Any) -> Iterator[Judgement]:
        """Every way out of a battery; a starter's own circuit must be covered or supported."""
        if battery.part is None or battery.name in study.condition.without:
            return
        def starts(element: Any) -> bool:
            return of_starter(element, study)

        inside = zone(battery.name, study, free=starts)
        bare = [*inside.loads(study), *inside.limited(study)]
        bare = [each for each in bare if not getattr(each, "cranking", False)]
        if bare:
            names = ", ".join(each.name for each in bare)
            yield capped(fail(f"no fuse or breaker on the way to {names}"))
        for run in runs(inside, starts):
            yield capped(_judge(run, limit, study))
        if starters := _starter_cables(battery, study):
            yield capped(_starter(starters, study, edition))

    return device_placement


def _judge(run: Run, limit: Derived, study: Any) -> Judgement:
    near = compare(run.length, at_most=limit)
    if isinstance(run.length, Unknown) or near.verdict == "pass":
        return near
    if run.sheathed is False:
        return compare(run.length, at_most=limit, reason="not covered all the way")
    impractical = stated(study, "nearer_impractical")
    if impractical is False:
        return compare(run.length, at_most=limit, reason="a nearer place is practical, as stated")
    missing = [*run.unsaid] + ([] if impractical else [asked("nearer_impractical", NEARER)])
    if missing:
        return unproven(*missing, reason="longer than 200 mm")
    return passed("longer than 200 mm, covered all the way, a nearer place stated impractical")


def _starter_cables(battery: Any, study: Any) -> list[Any]:
    """Cables of starters' circuits that no device parts from the battery."""
    inside = zone(battery.name, study)
    return [cable for cable, _ in inside.cables if of_starter(cable, study)]


def _starter(cables: list[Any], study: Any, edition: Edition) -> Judgement:
    bare = [cable.name for cable in cables if not cable.sheathed]
    supported = True if not bare else stated(study, "starter_cables_supported")
    if supported is None:
        return unproven(asked("starter_cables_supported", SUPPORTED), reason=", ".join(bare))
    if not supported:
        return fail(f"bare and not supported up to the starter: {', '.join(bare)}")
    source = edition.own(y2012="8.1, cranking motor", y2020="12.1, cranking motor")
    return note("the starter's feed is covered or supported: no device required", source=source)
