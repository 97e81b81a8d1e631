"""Practice: a device within 7 in of a battery, or 72 in if the way is sheathed throughout."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, Unknown, compare, given, note, rule, unproven
from coordination.rules.kit.zone import Zone, zone
from fusewright_us_small_craft.battery_runs import Run, feeds_nothing, runs, without_device
from fusewright_us_small_craft.scope import E11, practice

CARD = Card(
    name="practice-placement",
    title="Practice: device near the battery",
    why="Between battery and device nothing opens a fault; a sheath keeps it from beginning.",
    wrong="A metre of bare cable from the battery to the fuse block.",
    right="A fuse within 7 in of the terminal, or within 72 in sheathed all the way.",
    severity="fire",
    source=practice(E11, "E-11.10.1.1"),
    basis="practice",
)
BARE = given("longest bare conductor", "l_max", 7 * 0.0254, "m", CARD.source, "7 in")
SHEATHED = given("longest sheathed conductor", "l_max", 72 * 0.0254, "m", CARD.source, "72 in")
TAPPED = "leaves the exempt main feed of a starter, with a device within 7 in of it"


@rule(CARD, each="source")
def practice_placement(battery: Any, study: Any) -> Judgement | Iterator[Judgement] | None:
    """Every way out of the battery; a starter's own circuit is exempt."""
    if battery.part is None or battery.name in study.condition.without:
        return None
    inside = zone(battery.name, study)
    if feeds_nothing(inside):
        return note("nothing is joined to it", source=CARD.source)
    return _ways(battery, inside, study)


def _ways(battery: Any, inside: Zone, study: Any) -> Iterator[Judgement]:
    yield from without_device(inside, study)
    if any(getattr(load, "cranking", False) for load in inside.loads(study)):
        yield note("main feed of a starter, exempt", source=CARD.source)
    for run in runs(battery, inside, study):
        judgement = _run(run)
        tapped = judgement.verdict in ("fail", "unproven") and run.tapped
        yield note(TAPPED, source=CARD.source) if tapped else judgement


def _run(run: Run) -> Judgement:
    length = run.length
    if isinstance(length, Unknown) or length.value <= BARE.value:
        return compare(length, at_most=BARE)
    if run.sheathed or length.value > SHEATHED.value:
        return compare(length, at_most=SHEATHED)
    if run.sheathed is None:
        return unproven(*run.unsaid, reason="longer than 7 in: sheathed all the way?")
    return compare(length, at_most=BARE, reason="not sheathed all the way")
