"""Law: every conductor that leaves a battery meets its device within 72 in."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, compare, given, note
from coordination.rules.kit.zone import Zone, zone
from fusewright_us_small_craft.battery_runs import feeds_nothing, runs, without_device
from fusewright_us_small_craft.options import stated
from fusewright_us_small_craft.scope import law, law_rule

CARD = Card(
    name="battery-placement",
    title="Law: device within 72 in of the battery",
    why="Between battery and device nothing opens a fault. The section on batteries, which asks "
    "for no sheath, governs here, not the general one with its 7 in and 40 in.",
    wrong="A charger's lead with its fuse at the charger: metres of live cable to the battery.",
    right="A fuse at each battery. Boats built before 1 August 1985 with a battery switch are "
    "exempt: state options: us_small_craft: built.",
    severity="fire",
    source=law("183.460(a)"),
    basis="law",
)
LONGEST = given("longest conductor to the device", "l_max", 72 * 0.0254, "m", CARD.source, "72 in")
TAPPED = "leaves the exempt main feed of a starter, with a device within 7 in of it"
#: Boats built before this day, with a battery switch, are exempt.
EXEMPT_BEFORE = "1985-08-01"


@law_rule(CARD, each="source")
def battery_placement(battery: Any, study: Any) -> Judgement | Iterator[Judgement] | None:
    """Every way out of the battery; a starter's own circuit is exempt."""
    if battery.part is None or battery.name in study.condition.without:
        return None
    inside = zone(battery.name, study)
    if feeds_nothing(inside):
        return note("nothing is joined to it", source=CARD.source)
    if _exempt(inside, study):
        return note("built before 1 August 1985, with a battery switch", source=CARD.source)
    return _ways(battery, inside, study)


def _ways(battery: Any, inside: Zone, study: Any) -> Iterator[Judgement]:
    """What has no device at all, then the length of every run."""
    yield from without_device(inside, study)
    starters = any(getattr(load, "cranking", False) for load in inside.loads(study))
    if starters:
        yield note("main feed of a starter, exempt", source=CARD.source)
    for run in runs(battery, inside, study):
        judgement = compare(run.length, at_most=LONGEST)
        tapped = judgement.verdict == "fail" and run.tapped
        yield note(TAPPED, source=CARD.source) if tapped else judgement


def _exempt(inside: Zone, study: Any) -> bool:
    built = stated(study, "built")
    if built is None or str(built) >= EXEMPT_BEFORE:
        return False
    near = [e for e in study.system.elements() if e.start in inside.lengths]
    near += [e for e in study.system.elements() if e.end in inside.lengths]
    return any(element.kind == "disconnect" for element in near)
