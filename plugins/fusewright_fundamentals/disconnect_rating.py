"""A switch must carry the load, and a surge of equipment behind it, for as long as they last."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import (
    Card,
    Judgement,
    Source,
    Unknown,
    Value,
    compare,
    given,
    rule,
)
from coordination.rules.kit.stated import rating
from fusewright_fundamentals.surges import draws, flows_to, moments, through

CARD = Card(
    name="disconnect-rating",
    title="Switch carries its load",
    why="Contacts heat with the square of the current; above its continuous rating a switch loses "
    "its spring force, and each cycle makes it worse. A surge is held against the continuous "
    "rating or a row for at least its time, the rest of the load flowing on. A larger fuse ahead "
    "of the switch is not judged here: it allows an overload but causes none.",
    wrong="A switch bought by its cranking figure; a pack's own contactor that carries the whole "
    "load once its neighbour is out.",
    right="A switch with a higher continuous rating, or a condition in which load is shed.",
    severity="damage",
    source=Source("IEC 60947-3:2020", clause="rated uninterrupted current Iu", read=False),
)


@rule(CARD, each="disconnect")
def disconnect_rating(switch: Any, study: Any) -> Iterator[Judgement]:
    """Design current against the continuous rating, then each surge that may flow through it."""
    rated = rating(switch.part, "rated_current", "continuous rating", "I_r", "A")
    load = study.load(switch)
    yield compare(load, at_most=rated)
    for equipment in study.system.equipment.values():
        share = study.share(switch, equipment) if draws(equipment, study) else None
        if share is None or not flows_to(share):
            continue
        for field, row in moments(equipment):
            peak = through(load, share, field, equipment, study)
            reason = f"{field} of {equipment.name} for {row.time:g} s"
            allowed = _allowed(switch.part, row.time, peak, rated)
            yield compare(peak, at_most=allowed, reason=reason)


def _allowed(part: Any, time: float, peak: Value, rated: Value) -> Value:
    """The continuous rating if that is enough, else the largest row for at least this time [s]."""
    rows = [
        (row.current, number)
        for number, row in enumerate(part.intermittent if part is not None else ())
        if row.time >= time
    ]
    if isinstance(rated, Unknown) or isinstance(peak, Unknown) or peak.value <= rated.value:
        return rated
    if not rows:
        return Unknown("intermittent rating", (f"{part.id}: intermittent for >= {time:g} s",))
    current, number = max(rows)
    text = part.written.get(f"intermittent.{number}.current", "")
    source = Source("part data", clause=f"{part.id}: intermittent.{number}.current")
    return given("intermittent rating", "I_int", current, "A", source, text)
