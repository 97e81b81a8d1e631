"""What is found and what is allowed of a heated leg, in steps that can be checked."""

from __future__ import annotations

from coordination.rules import DEFINITION, Derived, Source, Value, derive
from coordination.rules.kit.stated import renamed
from fusewright_fundamentals.amounts import amps, metres
from fusewright_fundamentals.energy_steps import energy, through
from fusewright_fundamentals.heating import BEARABLE, Course, Heating
from fusewright_fundamentals.warming_steps import warmed

_OVERLOAD = Source("IEC 60364-4-43:2008", "433.1: I2 <= 1.45 Iz", read=False)


def sides(heating: Heating, course: Course) -> tuple[Value, Value]:
    """What is found and what is allowed at a current: the current itself, I²t, or temperature."""
    flowing = _flowing(heating, course)
    if course.last is None:
        return flowing, renamed(heating.ampacity, "I_z")
    if heating.borne(course):
        allowed = derive(
            lambda limit: BEARABLE * limit, "overload that a cable bears until its device opens",
            "I_2", "A", f"{BEARABLE} × I_z", renamed(heating.ampacity, "I_z"), source=_OVERLOAD,
        )  # fmt: skip
        return flowing, allowed
    if not course.slow or _lasting_borne(heating, course):
        return energy(heating, course, flowing), heating.limit
    return warmed(heating, course, flowing), heating.final


def _lasting_borne(heating: Heating, course: Course) -> bool:
    limit = heating.ampacity
    return isinstance(limit, Derived) and course.lasting <= BEARABLE * limit.value


def _flowing(heating: Heating, course: Course) -> Value:
    highest = heating.span.highest
    if isinstance(highest, Derived) and highest.value == course.current:
        return renamed(highest, "I")
    words = f"current in {heating.cable.name} at which it is heated most"
    return Derived(words, "I", course.current, "A", source=DEFINITION)


def reason_of(heating: Heating, course: Course) -> str:
    """Leg, worst current, place along the cable and the last device, in a few words."""
    span, words = heating.span, [f"{heating.leg.name} leg", f"worst at {amps(course.current)}"]
    place = span.where(course.current)
    if place is None:
        words.append("a fault beyond it" + ("" if span.least else ", or an overload"))
    else:
        words.append(f"fault {metres(place)} from its {span.end}")
    if course.last is not None:
        words.append(f"cleared by {course.last.clearer.device.name}")
    return ", ".join(words)


def only_bounded(heating: Heating, course: Course) -> tuple[str, ...]:
    """Devices of which no own data say that they take so long, a phrase each."""
    flowing = _flowing(heating, course)
    found: list[str] = []
    for part in (*course.quick, *course.slow):
        device = part.clearer.device
        if not heating.study.clearing(device, through(part, flowing)).own:
            found.append(f"{device.part.id}: its own clearing curve")
    return tuple(found)
