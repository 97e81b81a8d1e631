"""What equipment draws for a moment, and its inrush, must open no device on the way.

What the moment does to switches and to batteries' electronics is other rules' business.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import (
    COMMON_PRACTICE,
    Card,
    Judgement,
    Source,
    Unknown,
    Value,
    compare,
    derive,
    given,
    passed,
    rule,
    unproven,
)
from coordination.rules.kit.stated import renamed
from fusewright_fundamentals.amounts import amps
from fusewright_fundamentals.surges import draws, flows_to, momentary_time, moments, through

CARD = Card(
    name="ride-through",
    title="No device opens while the equipment starts",
    why="A motor's start or stall, an inverter's surge and the charging of its input are no "
    "faults, but a device knows only current and time. Of an inrush only the heat counts for a "
    "fuse: its peak says nothing. Curves hold from cold; a device that is warm from its load "
    "opens somewhat earlier.",
    wrong="A fuse chosen by the running current of a winch that draws 2.4 times as much to break "
    "loose; or a fuse called too small because a capacitor draws 9 kA for a millisecond.",
    right="A slower or larger device that the cable still allows, a softer start, or a precharge "
    "resistor.",
    severity="outage",
    source=COMMON_PRACTICE,
)

#: Time constants after which an inrush has died away to less than 1 %.
DIED_AWAY = 5.0
_HEAT = Source("definition", "of a current that divides, heat goes with the square of the share")


@rule(CARD, each="equipment")
def ride_through(equipment: Any, study: Any) -> Iterator[Judgement]:
    """Each moment through each fuse and breaker on the way, then the inrush."""
    stated, inrush = tuple(moments(equipment)), study.inrush(equipment)
    if not draws(equipment, study) or not (stated or inrush):
        return
    for device in study.subjects("device"):
        share = study.share(device, equipment)
        if not flows_to(share):
            continue
        for field, _ in stated:
            yield _moment(device, share, field, equipment, study)
        if inrush is not None:
            yield _inrush(device, share, inrush, equipment, study)


def _moment(device: Any, share: Value, field: str, equipment: Any, study: Any) -> Judgement:
    current = renamed(through(study.load(device), share, field, equipment, study), "I_U")
    held = study.holding(device, current)
    reason = f"{field} of {equipment.name} through {device.name}"
    if held.time is None:
        return passed(f"{device.name} carries the {field} for good")
    judged = compare(held.time, at_least=momentary_time(field, equipment), reason=reason)
    if judged.verdict != "fail" or held.exact:
        return judged
    what = "minimum trip curve" if device.kind == "breaker" else "minimum melting curve"
    assert not isinstance(current, Unknown)
    return unproven(f"{device.part.id}: its own {what} at {amps(current.value)}", reason=reason)


def _inrush(device: Any, share: Value, inrush: Any, equipment: Any, study: Any) -> Judgement:
    if device.kind == "breaker":
        return _inrush_of_breaker(device, share, inrush, equipment, study)
    reason = f"inrush of {equipment.name} through {device.name}"
    heat = derive(
        lambda energy, part: energy * part * part, f"I²t of the inrush in {device.name}", "J_U",
        "A²s", "J × s²", renamed(inrush.energy, "J"), renamed(share, "s"), source=_HEAT,
    )  # fmt: skip
    return compare(heat, at_most=_melting(device, study), reason=reason)


def _melting(device: Any, study: Any) -> Value:
    """Least I²t [A²s] that melts a fuse in any time: stated, or of an adiabatic last point."""
    quantity, part = f"least melting I²t of {device.name}", device.part
    if part.melting_i2t is not None:
        source = Source("part data", clause=f"{part.id}: melting_i2t")
        text = part.written.get("melting_i2t", "")
        return given(quantity, "J_melt", part.melting_i2t, "A²s", source, text)
    opening = study.opening(device)
    if isinstance(opening, Unknown):
        return Unknown(quantity, (f"{part.id}: melting_i2t",))
    points = opening.fastest.points
    if not points or points[-1][1] > ADIABATIC_TIME:
        return Unknown(quantity, (f"{part.id}: melting_i2t",))
    current, time = points[-1]
    source = Source("part data", clause=f"{part.id}: last point of the fastest boundary")
    point = given("current of its last point", "I_1", current, "A", source)
    lasting = given("time of its last point", "t_1", time, "s", source)
    return derive(
        lambda amperes, seconds: amperes * amperes * seconds,
        f"{quantity} (adiabatic, physics)", "J_melt", "A²s", "I_1² × t_1", point, lasting,
        source=_ADIABATIC,
    )  # fmt: skip


#: Longest time [s] in which melting is adiabatic.
ADIABATIC_TIME = 0.01
_ADIABATIC = Source("IEC 60269-1:2006", "pre-arcing I²t up to 10 ms", read=False)


def _inrush_of_breaker(
    device: Any, share: Value, inrush: Any, equipment: Any, study: Any
) -> Judgement:
    """Its magnetic release sees the peak; it must stay closed until that has died away."""
    peak = derive(
        lambda current, part: current * part, f"peak inrush in {device.name}", "I_U", "A",
        "I_peak × s", renamed(inrush.peak, "I_peak"), renamed(share, "s"),
    )  # fmt: skip
    lasting = derive(
        lambda ohms, farads: DIED_AWAY * ohms * farads, f"inrush of {equipment.name} has died away",
        "t_in", "s", f"{DIED_AWAY:g} × R × C", renamed(inrush.resistance, "R"),
        renamed(inrush.capacitance, "C"),
    )  # fmt: skip
    held = study.holding(device, peak)
    if held.time is None:
        assert not isinstance(peak, Unknown)
        return passed(f"{device.name} carries {amps(peak.value)} for good")
    reason = f"inrush of {equipment.name} through {device.name}"
    return compare(held.time, at_least=lasting, reason=reason)
