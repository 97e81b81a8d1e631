"""Practice: a device within 7 in of a battery, or 72 in if the way is sheathed throughout."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, Unknown, compare, fail, given, note, rule, unproven
from fusewright_us_small_craft.battery_runs import Run, around, runs
from fusewright_us_small_craft.scope import E11, practice
from fusewright_us_small_craft.walk import Zone

CARD = Card(
    name="practice-placement",
    title="Practice: device near the battery",
    why="Between battery and device nothing opens a fault; a sheath keeps it from beginning.",
    wrong="A metre of bare cable from the battery to the fuse block.",
    right="A fuse within 7 in of the terminal, or within 72 in sheathed all the way.",
    severity="fire",
    source=practice(E11, "E-11.10.1.1"),
)
BARE = given("longest bare conductor", "l_max", 7 * 0.0254, "m", CARD.source, "7 in")
SHEATHED = given("longest sheathed conductor", "l_max", 72 * 0.0254, "m", CARD.source, "72 in")


@rule(CARD, each="source")
def practice_placement(battery: Any, study: Any) -> Judgement | Iterator[Judgement] | None:
    """Every way out of the battery; a starter's own circuit is exempt."""
    if battery.part is None or battery.name in study.condition.without:
        return None
    inside = around(battery, study)
    if not (inside.cables or inside.devices or len(inside.lengths) > 1):
        return note("feeds nothing but a starter, or nothing", source=CARD.source)
    return _ways(inside, study)


def _ways(inside: Zone, study: Any) -> Iterator[Judgement]:
    bare = [each.name for each in inside.loads(study) if not getattr(each, "cranking", False)]
    bare += [source.name for source in inside.limited(study)]
    if bare or not inside.devices:
        yield fail(f"no device on the way to {', '.join(bare) or 'what it feeds'}")
    for run in runs(inside):
        yield _run(run)


def _run(run: Run) -> Judgement:
    length = run.length
    if isinstance(length, Unknown) or length.value <= BARE.value:
        return compare(length, at_most=BARE)
    if run.sheathed or length.value > SHEATHED.value:
        return compare(length, at_most=SHEATHED)
    if run.sheathed is None:
        return unproven(*run.unsaid, reason="longer than 7 in: sheathed all the way?")
    return compare(length, at_most=BARE, reason="not sheathed all the way")
