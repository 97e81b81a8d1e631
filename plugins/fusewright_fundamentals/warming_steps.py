"""How warm a leg gets from what lasts, in steps that can be checked."""

from __future__ import annotations

from coordination.physics.overload import overload_temperature
from coordination.physics.sources import LOAD_TEMPERATURE
from coordination.rules import DEFINITION, Derived, Source, Value, derive
from coordination.rules.kit.stated import renamed
from fusewright_fundamentals.energy_steps import cleared, energy, runs, still_flowing
from fusewright_fundamentals.heating import Course, Heating, in_turn

_BODY = Source("heat balance of the conductor", "no heat stored in the insulation")
_ADIABATIC = Source("IEC 60364-5-54:2011", "Annex A, solved for the temperature")


def warmed(heating: Heating, course: Course, flowing: Value) -> Value:
    """The highest temperature [°C] reached while one part after the other ends."""
    hottest = now = _before(heating, course, flowing)
    tau, earlier = _time_constant(heating), 0.0
    parts = in_turn(course.slow)
    for number, part in enumerate(parts):
        current = still_flowing(course, parts[number:], flowing)
        steady = derive(
            lambda amps, *_: heating.steady(amps), "temperature that it would lead to", "T_s",
            "°C", "T_a + (T_rated − T_a) × (I / I_z)²", renamed(current, "I"),
            renamed(heating.ampacity, "I_z"),
            renamed(heating.study.ambient(heating.cable), "T_a"),
            renamed(heating.leg.insulation_temperature, "T_rated"), source=LOAD_TEMPERATURE,
        )  # fmt: skip
        words = f"temperature of the {heating.leg.name} leg when {part.clearer.device.name} has "
        lasts = _lasts(cleared(heating, part, flowing), earlier)
        now = derive(
            lambda end, begin, constant, seconds: overload_temperature(
                end, begin, constant, seconds),
            f"{words}cleared", "T", "°C", "T_s − (T_s − T_0) × e^(−t / τ)", steady,
            renamed(now, "T_0"), tau, lasts, source=_BODY,
        )  # fmt: skip
        earlier = part.time
        if isinstance(now, Derived) and isinstance(hottest, Derived):
            hottest = max(hottest, now, key=lambda value: value.value)
    return hottest


def _before(heating: Heating, course: Course, flowing: Value) -> Value:
    """Temperature [°C] from which what lasts warms the leg."""
    initial = renamed(heating.initial, "T_i")
    if not course.quick:
        return initial
    words = f"temperature of the {heating.leg.name} leg after what ended quickly, molten at most"
    return derive(
        lambda energy, *_: heating.after(energy), words, "T_0", "°C",
        "(234.5 + T_i) × e^(J / (226 S)²) − 234.5", energy(heating, course, flowing), initial,
        renamed(heating.leg.area, "S"), source=_ADIABATIC,
    )  # fmt: skip


def _time_constant(heating: Heating) -> Value:
    return derive(
        lambda *_: heating.warming, "time constant of its warming, at least", "τ", "s",
        "Q_c × S² × (T_rated − T_a) × n² / (ρ × I_z²)", renamed(heating.leg.area, "S"),
        renamed(heating.leg.insulation_temperature, "T_rated"),
        renamed(heating.study.ambient(heating.cable), "T_a"), runs(heating),
        renamed(heating.ampacity, "I_z"), source=_BODY,
    )  # fmt: skip


def _lasts(time: Value, earlier: float) -> Value:
    """How long [s] a part flows on after the one before it has ended."""
    if not earlier:
        return time
    before = Derived("until the part before it has ended", "t_1", earlier, "s", "", (), DEFINITION)
    return derive(
        lambda one, other: one - other, "how long it flows on alone", "t", "s", "t_2 − t_1",
        renamed(time, "t_2"), before,
    )  # fmt: skip
