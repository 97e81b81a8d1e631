"""What the cables of a path bear: current against time at k²S², from the temperature under load.

How hot a conductor may become is the part's own figure, or the lowest published for its insulation.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import sqrt
from typing import Any

from catalogue.frozen import dataclass
from coordination.charts.chart import SHORTEST, Curve, Stroke
from coordination.charts.naming import WHOLE, short
from coordination.errors import OutOfRange
from coordination.model import Element
from coordination.physics.adiabatic import k_factor, lowest_final_temperature
from coordination.report.wording import number
from coordination.trace import Derived, Unknown

#: Longest time [s] for which heat is taken to stay in the copper (IEC 60364-4-43).
ADIABATIC = 5.0
#: Currents over ampacity at which a protected cable must be switched off in time (433.1).
CONVENTIONAL = 1.45
#: Curves nearer than this (ratio) are drawn as one, the lower.
ALIKE = 1.04
#: Shares of the axis current nearer than this are drawn as one.
SHARES_ALIKE = 0.02


@dataclass(frozen=True, slots=True)
class _Borne:
    """A leg, in terms of the chart's axis: k S [A·s^0.5], ampacity [A] or None; in words.

    share -- its current per ampere of the axis [1]
    """

    strength: float
    ampacity: float | None
    share: float
    name: str
    size: str


def cable_curves(
    study: Any, elements: Iterable[Element], share_of: Callable[[Element], float]
) -> tuple[list[Curve], list[str]]:
    """One curve for cables that bear about the same, and notes on those without."""
    found: list[_Borne] = []
    notes: list[str] = []
    for element in elements:
        if element.kind != "cable":
            continue
        share = share_of(element)
        wires = [leg for leg in study.legs(element) if leg.part is not None]
        legs = [_borne(study, element, leg, share) for leg in wires]
        known = [leg for leg in legs if isinstance(leg, _Borne)]
        notes += [leg for leg in legs if isinstance(leg, str)]
        if known:
            found.append(min(known, key=lambda leg: leg.strength))
    return [_curve(group) for group in _groups(found)], notes


def _borne(study: Any, element: Element, leg: Any, share: float) -> _Borne | str:
    name = short(element.name)
    if isinstance(leg.area, Unknown) or isinstance(leg.insulation_temperature, Unknown):
        return f"{name}: what it bears is unknown"
    rated = leg.insulation_temperature.value
    final = leg.part.short_circuit_temperature or _lowest_final(rated, leg.area.value)
    if final is None:
        return f"{name}: what it bears is unknown without {leg.part.id}: short_circuit_temperature"
    warm = study.conductor_temperature(element, leg)
    initial = min(warm.value, rated) if isinstance(warm, Derived) else rated
    try:
        strength = k_factor(initial, final) * leg.area.value * leg.runs
    except OutOfRange:
        return f"{name}: no short circuit is borne from {initial:.0f} to {final:.0f} °C"
    ampacity = study.ampacity(element, leg)
    size = f"{leg.runs} × " if leg.runs > 1 else ""
    size += number(leg.area.value, "m²", leg.part.written.get("area", "") or "1 mm²")
    way = "" if leg.name == "positive" else f" ({leg.name})"
    words = f"{size}, {initial:.0f} to {final:.0f} °C"
    if abs(share - 1.0) > WHOLE:
        words += f", carries {share:.0%}"
    limit = ampacity.value / share if isinstance(ampacity, Derived) else None
    return _Borne(strength / share, limit, share, f"{name}{way}", words)


def _lowest_final(rated: float, area: float) -> float | None:
    try:
        return lowest_final_temperature(rated, area)
    except OutOfRange:
        return None


def _groups(found: list[_Borne]) -> list[list[_Borne]]:
    groups: list[list[_Borne]] = []
    for each in sorted(found, key=lambda leg: leg.strength):
        alike = groups and each.strength <= groups[-1][0].strength * ALIKE
        if alike and abs(each.share - groups[-1][0].share) <= SHARES_ALIKE:
            groups[-1].append(each)
        else:
            groups.append([each])
    return groups


def _curve(group: list[_Borne]) -> Curve:
    weakest = group[0]
    names = list(dict.fromkeys(each.name for each in group))
    words = f"{names[0]} and {len(names) - 1} more bear" if names[1:] else f"{names[0]} bears"
    strokes = [_stroke(weakest.strength, SHORTEST, ADIABATIC, beyond=False)]
    if weakest.ampacity:
        longest = (weakest.strength / (CONVENTIONAL * weakest.ampacity)) ** 2
        if longest > ADIABATIC:
            strokes.append(_stroke(weakest.strength, ADIABATIC, longest, beyond=True))
    return Curve((words, weakest.size), "cable", slowest=tuple(strokes))


def _stroke(strength: float, start: float, end: float, *, beyond: bool) -> Stroke:
    """The straight line I = k S / √t between two times, with samples for labels to point at."""
    steps = 40
    times = [start * (end / start) ** (step / steps) for step in range(steps + 1)]
    return Stroke(tuple((strength / sqrt(time), time) for time in times), beyond)
