"""Which of the single events count: each has one cause, and comes unasked or by one hand.

Every device, switch and electronic output for itself; a battery's electronics, and those of
batteries that are joined together; every limited source and every converter. A battery's own
failure counts only where the file says so; one whose chemistry is not stated may have electronics,
which leaves it open. That every switch is off is meant, and no event.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from coordination.rules import COMMON_PRACTICE, Judgement, note
from fusewright_continuity.options import PACK

_ALWAYS = ("device", "channel", "switch", "contactor", "trip", "joint trip", "converter")
TRIPS = ("contactor", "trip", "joint trip")


class Counted(NamedTuple):
    """An event with how it strikes; `missing`: what decides whether it counts, empty if it does."""

    event: Any
    how: Any
    missing: tuple[str, ...] = ()


def counted(subject: Any, study: Any) -> Iterator[Counted]:
    """The events that strike a subject and count, or may."""
    for event, how in study.events_on(subject.name):
        if event.kind in _ALWAYS:
            yield Counted(event, how)
        elif event.kind == "source":
            yield from _lost(event, how, study)


def _lost(event: Any, how: Any, study: Any) -> Iterator[Counted]:
    source = study.system.sources[event.name]
    if source.part is None or study.option(PACK, "battery_failure_counts"):
        yield Counted(event, how)
    elif source.part.chemistry is None and not _operates(event.name, study):
        what = f"{source.part.id}: chemistry (whether electronics may disconnect {event.name})"
        yield Counted(event, how, (what,))


def _operates(battery: str, study: Any) -> bool:
    """Whether a contactor is drawn that a battery works: then its trip is an event of its own."""
    return any(each.operated_by == battery for each in study.subjects("disconnect"))


def is_a_trip(study: Any) -> bool:
    """Whether the condition itself is what a trip leaves: it opens a contactor of a battery.

    One that is open in `normal` too is how the system is used, and no trip.
    """
    usual = study.system.conditions["normal"].open
    opened = [name for name in study.condition.open if name not in usual]
    return any(each.name in opened and each.operated_by for each in study.subjects("disconnect"))


def no_second_event() -> Judgement:
    """What stands in place of a pass where the events of a condition were not looked at."""
    return note(
        "this condition opens a battery's contactor: no second event was laid upon it",
        source=COMMON_PRACTICE,
    )
