"""What is found and what is allowed of a heated leg, in steps that can be checked."""

from __future__ import annotations

from coordination.rules import DEFINITION, Derived, Source, Unknown, Value, derive, given
from fusewright_fundamentals.amounts import amps, metres
from fusewright_fundamentals.heating import BEARABLE, Course, Heating, Part
from fusewright_fundamentals.stated import renamed

_OVERLOAD = Source("IEC 60364-4-43:2008", "433.1: I2 <= 1.45 Iz", read=False)
_BODY = Source("heat balance of the conductor", "no heat stored in the insulation")
_SUM = Source("Minkowski's inequality", "energies of currents that add up")


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
        return _energy(heating, course, flowing), heating.limit
    return _warmed(heating, course, flowing), heating.final


def _lasting_borne(heating: Heating, course: Course) -> bool:
    limit = heating.ampacity
    return isinstance(limit, Derived) and course.lasting <= BEARABLE * limit.value


def _flowing(heating: Heating, course: Course) -> Value:
    highest = heating.span.highest
    if isinstance(highest, Derived) and highest.value == course.current:
        return renamed(highest, "I")
    words = f"current in {heating.cable.name} at which it is heated most"
    return Derived(words, "I", course.current, "A", source=DEFINITION)


def _energy(heating: Heating, course: Course, flowing: Value) -> Value:
    """Let-through [A²s] in one of the leg's parallel cables."""
    quantity = f"let-through in the {heating.leg.name} leg"
    runs = _runs(heating)
    if len(course.quick) == 1:
        part = course.quick[0]
        through, time = _through(part, flowing), _time(heating, part, flowing)
        return derive(
            lambda amps, seconds, cables: (amps / cables) ** 2 * seconds,
            quantity, "J", "A²s", "(I_d / n)² t", through, time, runs, source=DEFINITION,
        )  # fmt: skip
    parts = [_part_energy(heating, part, flowing, n) for n, part in enumerate(course.quick, 1)]
    roots = " + ".join(f"sqrt(J_{n})" for n in range(1, len(parts) + 1))
    return derive(
        lambda *values: sum(value**0.5 for value in values[:-1]) ** 2 / values[-1] ** 2,
        quantity, "J", "A²s", f"({roots})² / n²", *parts, runs, source=_SUM,
    )  # fmt: skip


def _part_energy(heating: Heating, part: Part, flowing: Value, number: int) -> Value:
    return derive(
        lambda amps, seconds: amps**2 * seconds, f"let through by {part.clearer.device.name}",
        f"J_{number}", "A²s", "I_d² t", _through(part, flowing), _time(heating, part, flowing),
        source=DEFINITION,
    )  # fmt: skip


def _through(part: Part, flowing: Value) -> Value:
    """Current [A] through a device for the current in the cable."""
    if part.clearer.share.value == 1.0:
        return renamed(flowing, "I_d")
    words = f"current through {part.clearer.device.name}"
    return derive(
        lambda amps, share: amps * share, words, "I_d", "A", "I × s", flowing,
        renamed(part.clearer.share, "s"),
    )  # fmt: skip


def _time(heating: Heating, part: Part, flowing: Value) -> Value:
    """The clearing time [s] of a device, with what it rests on."""
    steady = heating.study.clearing(part.clearer.device, _through(part, flowing)).steady
    if isinstance(steady, Derived) and abs(steady.value - part.time) <= 1e-9 * part.time:
        return renamed(steady, "t")
    inputs = () if isinstance(steady, Unknown) else (steady,)
    words = f"latest clearing of {part.clearer.device.name}, with the rise of the current"
    return Derived(words, "t", part.time, "s", "3 τ + t(0.95 I_d)", inputs, DEFINITION)


def _warmed(heating: Heating, course: Course, flowing: Value) -> Value:
    """Temperature [°C] reached in an overload."""
    study, leg = heating.study, heating.leg
    last = max(course.slow, key=lambda part: part.time)
    inputs: list[Value] = [
        _time(heating, last, flowing),
        renamed(heating.initial, "T_i"),
        renamed(heating.ampacity, "I_z"),
        renamed(study.ambient(heating.cable), "T_a"),
        renamed(leg.insulation_temperature, "T_rated"),
        renamed(leg.area, "S"),
        _runs(heating),
    ]
    if course.quick:
        inputs.append(_energy(heating, course, flowing))
    formula = (
        "T_s − (T_s − T_0) e^(−t / τ), T_s = T_a + (T_rated − T_a) (I / I_z)², "
        "τ = Q_c S² (T_rated − T_a) n² / (ρ I_z²), T_0 = T_i heated by what ended before"
    )
    words = f"temperature of the {leg.name} leg when {last.clearer.device.name} has cleared"
    return derive(
        lambda *_: heating.temperature(course), words, "T", "°C", formula, flowing, *inputs,
        source=_BODY,
    )  # fmt: skip


def _runs(heating: Heating) -> Derived:
    return given("equal cables in parallel", "n", heating.leg.runs, "", DEFINITION)


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
        if not heating.study.clearing(device, _through(part, flowing)).own:
            found.append(f"{device.part.id}: its own clearing curve")
    return tuple(found)
