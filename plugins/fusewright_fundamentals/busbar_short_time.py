"""A busbar must bear the heat of a fault until its devices have cleared it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from coordination.physics.adiabatic import adiabatic_limit, k_factor
from coordination.physics.busbars import bar_area
from coordination.rules import (
    COMMON_PRACTICE,
    DEFINITION,
    Card,
    Derived,
    Judgement,
    Source,
    Unknown,
    Value,
    compare,
    derive,
    fail,
    given,
    rule,
    unproven,
)
from coordination.rules.kit.stated import rating, renamed
from fusewright_fundamentals.amounts import amps
from fusewright_fundamentals.behind import behind
from fusewright_fundamentals.joined import reach
from fusewright_fundamentals.let_through import Heat, heats, of_device, steps, together, unknowns
from fusewright_fundamentals.overload_bound import source_limit

CARD = Card(
    name="busbar-short-time",
    title="Busbar bears the heat of a fault",
    why="All batteries meet on the bar, and their devices stand elsewhere: what these let through "
    "adds up in it. The sum of the roots of their I²t bounds what the bar takes, whenever each of "
    "them clears. Whether supports hold the force is another matter.",
    wrong="A light brass block collecting four racks, each behind a slow breaker.",
    right="A heavier bar, or faster devices ahead of it.",
    severity="fire",
    source=Source("IEC 61439-1:2020", clause="10.11, short-time withstand by I²t", read=False),
)

#: Copper bars: hottest under load, and at the end of a fault [°C].
INITIAL, FINAL = 105.0, 200.0
_FINAL = Source("IEC 60865-1:2011", "Table 6, bare copper bars", read=False)
_FACTOR = Source("IEC 60364-5-54:2011", "Annex A")
_COPPER = ("copper", "tinned copper")


@rule(CARD, each="busbar")
def busbar_short_time(busbar: Any, study: Any) -> Iterator[Judgement]:
    """What all devices that feed it let through together against its short-time rating.

    What sources that limit themselves add while the others clear is counted with them.
    """
    side = study.protectors(busbar)
    if side.exposed:
        names = ", ".join(source.name for source in side.exposed)
        yield fail(f"no device clears a fault fed by {names}")
        return
    beside = reach(busbar.name, study)
    feeders = [(device, _far_end(device, beside)) for device in side.devices]
    fed = [(device, end) for device, end in feeders if behind(device, end, study).batteries]
    found = [_most(device, end, study) for device, end in fed]
    unclear = [each for each in found if isinstance(each, Judgement)]
    if unclear:
        yield from unclear
        return
    parts = [each for each in found if isinstance(each, _Feeder)]
    if parts:
        energies = [part.energy for part in parts]
        steady = _steady(busbar, side, [each for each in feeders if each not in fed], study)
        if not isinstance(steady, Unknown) and steady.value > 0.0:
            longest = max(parts, key=lambda part: part.time)
            energies.append(_meanwhile(steady, longest))
        yield compare(together(energies), at_most=_limit(busbar.part))


class _Feeder(NamedTuple):
    """What a device that feeds the bar lets through [A²s], and for how long at most [s]."""

    energy: Value
    time: float


def _far_end(device: Any, beside: Any) -> str:
    """The end of a device that does not lie on the bar."""
    return "end" if device.start in beside else "start"


def _most(device: Any, end: str, study: Any) -> _Feeder | Judgement | None:
    """The largest I²t that a device lets through into a fault on the bar or behind it."""
    highest, lowest = study.arriving(device, end), study.fault_min_through(device)
    clearing = of_device(device, study)
    missing = unknowns((highest, lowest)) or clearing.missing
    if missing:
        return unproven(*missing, reason=f"what {device.name} lets through")
    high = highest.value
    if high <= 0.0 or lowest.value <= 0.0:
        return None
    worst, longest = None, 0.0
    for heat in heats(min(lowest.value, high), high, clearing.corners, clearing):
        if not isinstance(heat, Heat):
            return unproven(f"{device.name}: clearing time at {amps(heat)}")
        longest = max(longest, heat.time)
        if worst is None or heat.energy > worst.energy:
            worst = heat
    return None if worst is None else _Feeder(steps(worst, device, highest), longest)


def _steady(busbar: Any, side: Any, others: list[tuple[Any, str]], study: Any) -> Value:
    """Current [A] that sources without a fault current of their own bring to the bar."""
    limits = [source_limit(source, f"I_{n}") for n, source in enumerate(side.limited, 1)]
    limits += [renamed(study.arriving(device, end), "I") for device, end in others]
    named = [renamed(each, f"I_{number}") for number, each in enumerate(limits, 1)]
    formula = " + ".join(f"I_{number}" for number in range(1, len(named) + 1))
    quantity = f"what limited sources bring to {busbar.name}"
    return derive(lambda *each: sum(each), quantity, "I", "A", formula, *named)


def _meanwhile(steady: Derived, longest: _Feeder) -> Value:
    time = given("until the last device has cleared", "t", longest.time, "s", COMMON_PRACTICE)
    return derive(
        lambda amperes, seconds: amperes * amperes * seconds,
        "what limited sources add meanwhile", "J", "A²s", "I² × t", steady, time,
    )  # fmt: skip


def _limit(part: Any) -> Value:
    """I²t [A²s] that the bar bears: stated, or k² S² of copper."""
    if part.short_time is not None:
        current = rating(part, "short_time.current", "short-time current", "I_cw", "A")
        time = rating(part, "short_time.time", "short-time", "t_cw", "s")
        return derive(
            lambda amperes, seconds: amperes * amperes * seconds, "short-time I²t", "J_cw", "A²s",
            "I_cw² × t_cw", current, time, source=CARD.source,
        )  # fmt: skip
    if part.material not in _COPPER or part.width is None or part.thickness is None:
        return Unknown("short-time I²t", (f"{part.id}: short_time",))
    width = rating(part, "width", "width", "w", "m")
    thickness = rating(part, "thickness", "thickness", "d", "m")
    area = derive(bar_area, "section", "S", "m²", "w × d", width, thickness, source=DEFINITION)
    factor = derive(
        k_factor, "k factor", "k", "A·s^½/m²",
        "226 A·s^½/mm² × √ln((234.5 + T_f) / (234.5 + T_i))",
        given("temperature under load, at most", "T_i", INITIAL, "°C", COMMON_PRACTICE),
        given("temperature when the fault ends", "T_f", FINAL, "°C", _FINAL), source=_FACTOR,
    )  # fmt: skip
    return derive(adiabatic_limit, "short-time I²t", "J_cw", "A²s", "k² S²", area, factor)
