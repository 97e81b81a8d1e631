"""What must stay alive outlives any one event but that of its own branch."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import (
    COMMON_PRACTICE,
    Card,
    Judgement,
    compare,
    fail,
    note,
    passed,
    rule,
    unproven,
)
from fusewright_continuity.counted import counted, is_a_trip, no_second_event

CARD = Card(
    name="critical-supply",
    title="Critical equipment outlives any single event",
    why="A bilge pump, a radio or navigation lights are needed most when something else has just "
    "failed: a battery that disconnects itself, a fuse that opens, a switch turned the wrong way.",
    wrong="A bilge pump on the switched bus, behind the only pack's contactor.",
    right="Its own fused circuit from a bus that no switch and no single battery's electronics "
    "turn off, or a second supply.",
    severity="outage",
    source=COMMON_PRACTICE,
    basis="practice",
)


@rule(CARD, each="equipment")
def critical_supply(equipment: Any, study: Any) -> Iterator[Judgement]:
    """Equipment stated critical; unstated, it is unproven where it would fail.

    The elements that serve it alone are exempt: opening one necessarily darkens it, and a second
    feed is what takes it out of that. Supply by charging sources without a battery counts where
    they can carry it and are stated to run so. A condition that opens a battery's contactor stands
    for its trip, and no second event is laid upon that.
    """
    if equipment.critical is False or equipment.name in study.condition.without:
        return
    judgements = tuple(_judged(equipment, study))
    if equipment.critical:
        yield from judgements
    elif any(each.verdict in ("fail", "unproven") for each in judgements):
        yield unproven(f"{equipment.name}: critical (yes: it must outlive any single event)")


def _judged(equipment: Any, study: Any) -> Iterator[Judgement]:
    drawn = study.before_any_event
    if equipment.name in drawn.dark:
        yield fail("dark in this condition as drawn")
        return
    for name, supplied in drawn.supplied:
        if name == equipment.name:
            yield _carried(supplied, "in this condition as drawn", study)
    own = {each.name for each in study.own_branch(equipment) if each.operated_by is None}
    if is_a_trip(study):
        yield no_second_event()
        return
    strikes = tuple(counted(equipment, study))
    others = [each for each in strikes if each.event.name not in own]
    dark = [each.event.told for each in others if each.how == "dark" and not each.missing]
    if dark:
        yield fail(f"dark when {', when '.join(dark)}")
    for each in others:
        if each.missing:
            yield unproven(*each.missing, reason=f"lost if {each.event.told}")
        elif each.how != "dark":
            yield _carried(each.how, f"when {each.event.told}", study)
    if len(others) < len(strikes):
        exempt = ", ".join(each.event.name for each in strikes if each.event.name in own)
        yield note(f"{exempt}: of its own branch, which is exempt", source=COMMON_PRACTICE)
    elif not others:
        yield passed("no single event darkens it")


def _carried(supplied: Any, when: str, study: Any) -> Judgement:
    """Limited sources alone: they must give what is drawn, and run without a battery."""
    names = ", ".join(supplied.sources) or "nothing"
    found = compare(
        study.limited_demand(supplied),
        at_most=study.limited_supply(supplied),
        reason=f"fed by {names} alone {when}",
    )
    if found.verdict != "pass":
        return found
    everything = {**study.system.sources, **study.system.converters}
    stated = {name: everything[name].runs_without_battery for name in supplied.sources}
    refused = [name for name, each in stated.items() if each is False]
    if refused:
        told = ", ".join(refused)
        return fail(f"fed by {names} alone {when}; {told} must not run without a battery")
    missing = [f"{name}: runs_without_battery" for name, each in stated.items() if each is None]
    return unproven(*missing, reason=f"fed by {names} alone {when}") if missing else found
