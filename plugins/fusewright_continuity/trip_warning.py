"""A battery whose trip takes equipment with it warns before; asked of the file."""

from __future__ import annotations

from typing import Any

from coordination.rules import COMMON_PRACTICE, Card, Judgement, fail, passed, rule, unproven
from fusewright_continuity.counted import TRIPS
from fusewright_continuity.options import QUESTIONS

CARD = Card(
    name="trip-warning",
    title="A warning comes before a battery disconnects itself",
    why="Who is warned can shed loads, start an engine or steer clear before everything goes dark.",
    wrong="A battery whose only message is silence.",
    right="An audible or visible warning before the electronics open; state it under "
    "options: {continuity: {warning_before_trip: yes}}. Whether codes ask for it or only advise it "
    "is not agreed.",
    severity="outage",
    source=COMMON_PRACTICE,
    basis="practice",
)


@rule(CARD, each="source")
def trip_warning(battery: Any, study: Any) -> Judgement | None:
    """Batteries whose electronics disconnect them, alone or with others that are joined to them."""
    trips = [outcome for outcome in study.outages if _of(battery, outcome.event, study)]
    if not trips:
        return None
    lost = {name: None for outcome in trips for name in (*outcome.dark, *outcome.starved)}
    lost |= {name: None for outcome in trips for name in outcome.doubtful}
    if not lost:
        return passed("its trip darkens nothing")
    stated = QUESTIONS.stated(study, "warning_before_trip")
    if stated is None:
        return unproven(QUESTIONS.asked("warning_before_trip"))
    if stated:
        return passed("the file states that a warning comes before")
    return fail(f"no warning before its trip takes {', '.join(lost)}")


def _of(battery: Any, event: Any, study: Any) -> bool:
    """Whether an event is a trip in which this battery has its part."""
    if battery.part is None or event.kind not in TRIPS:
        return False
    if battery.name in event.lost:
        return True
    driven = {e.name for e in study.subjects("disconnect") if e.operated_by == battery.name}
    return not driven.isdisjoint(event.opened)


