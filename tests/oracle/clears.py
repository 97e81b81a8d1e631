"""Judges the weakest fault beyond a device, which way a breaker is crossed, and bare cable ends."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from tests.oracle.opening import cleared, slowest
from tests.oracle.plant import Element, Supply, legs
from tests.oracle.quantities import si
from tests.oracle.state import FAIL, NOTE, PASS, UNPROVEN, State, Verdict, against, worst
from tests.oracle.ways import reached, ways

#: Longest time [s] for the weakest fault; longest runs [m] without a device, bare and sheathed.
LONGEST, BARE, SHEATHED = 5.0, 0.178, 1.83


def fault_clears(state: State, element: Element) -> Verdict | None:
    """The least current through it, for faults beyond it up to the next devices, opens it."""
    if not element.protective or not state.plant.closed(element, state.condition):
        return None
    each = [_weakest(state, element, n) for n in range(len(state.least))]
    if min(each) == inf:
        return NOTE if state.condition == "normal" and any(_crossed(state, element)) else None
    if abs(each[0] - each[1]) > 1e-4 * each[0]:
        return UNPROVEN
    if element.kind == "channel":
        return UNPROVEN
    part, volts = element.part or {}, state.volts(element.start, element.end)
    if not slowest(part) and part.get("clearing_i2t") is None:
        return UNPROVEN
    return against(cleared(part, each[0], volts), LONGEST)


def _weakest(state: State, element: Element, bound: int) -> float:
    """Least current [A] through a device that goes to a fault beyond it; infinite: none does."""
    dense, least = state.least[bound], inf
    if state.island(element.start) not in state.block.batteries:
        return inf
    for way in ways(element):
        for point in reached(state, way[1], (element,), devices=False):
            voltage = dense.voltages(dense.driven, [point])[0]
            amps = dense.flow(element, voltage) * way[2]
            if amps > 1e-6 * dense.fault(point, dense.driven):
                least = min(least, amps)
    return least


def _crossed(state: State, element: Element) -> tuple[bool, bool]:
    """Whether a source stands on its start's side, and on its end's."""
    points = {supply.point for supply in state.block.present}
    return tuple(  # type: ignore[return-value]
        bool(points & reached(state, end, (element,), devices=True))
        for end in (element.start, element.end)
    )


def breaker_polarity(state: State, element: Element) -> Verdict | None:
    """A polarised one is crossed from + alone; the generated systems never say where + is."""
    if element.kind != "breaker" or element.part is None:
        return None
    polarised = element.part.get("polarised")
    ways_in = _crossed(state, element)
    if polarised is False or not state.plant.closed(element, state.condition) or not any(ways_in):
        return PASS
    return FAIL if polarised and all(ways_in) else UNPROVEN


def source_protection(state: State, element: Element) -> Verdict | None:
    """A device between each end and every battery, close to the battery."""
    if element.kind != "cable":
        return None
    if not state.plant.closed(element, state.condition):
        return PASS
    return worst([PASS, *_ends(state, element)])


def _ends(state: State, cable: Element) -> Iterator[Verdict]:
    for near, far in ((cable.start, cable.end), (cable.end, cable.start)):
        bare = reached(state, near, (cable,), devices=False)
        exposed = _batteries(state, bare)
        if not exposed and any(s.part is None and s.point in bare for s in state.block.present):
            yield NOTE
        if exposed:
            yield _run(cable, _unprotected(state, cable, near, far, exposed))
        for device in _first(state, near, cable) if not exposed else ():
            own = [e for e in state.plant.elements if e.circuit == device.circuit]
            if device.circuit == cable.circuit or all(e.kind != "cable" for e in own):
                ends = {device.start, device.end}
                if _batteries(state, _touching(state, ends)):
                    distance = device.entry.get("distance")
                    yield _run(device, None if distance is None else si(distance))


def _batteries(state: State, points: set[str]) -> list[Supply]:
    return [s for s in state.block.present if s.part is not None and s.point in points]


def _touching(state: State, points: set[str]) -> set[str]:
    """Points joined to these by neither cable nor device."""
    found, waiting = set(points), list(points)
    while waiting:
        here = waiting.pop()
        for other in state.block.around[here]:
            far = other.end if other.start == here else other.start
            if far not in found and other.kind != "cable" and not other.protective:
                found.add(far)
                waiting.append(far)
    return found


def _first(state: State, point: str, cable: Element) -> list[Element]:
    """Devices met first from a point, away from a cable, behind which a source stands."""
    met = []
    here = reached(state, point, (cable,), devices=False)
    for each in sorted(here):
        for other in state.block.around[each]:
            far = other.end if other.start == each else other.start
            if other.protective and other is not cable and far not in here:
                beyond = reached(state, far, (cable, other), devices=True)
                if any(supply.point in beyond for supply in state.block.present):
                    met.append(other)
    return met


def _unprotected(
    state: State, cable: Element, near: str, far: str, exposed: list[Supply]
) -> float:
    """Longest conductor [m] from a battery through a cable to its first device; else endless."""
    beyond = reached(state, far, (cable,), devices=False)
    ahead = _lengths(state, far, cable)
    behind = _lengths(state, near, cable)
    users = {point for point, _ in state.plant.draws.values()}
    runs = [
        ahead[point] + si(device.entry.get("distance", "0 m"))
        for point in beyond
        for device in state.block.around[point]
        if device.protective and device is not cable
    ]
    if users & beyond or not runs:
        return inf
    own = legs(state.plant, cable)[0][1]
    return own + max(runs) + max(behind[supply.point] for supply in exposed)


def _lengths(state: State, point: str, without: Element) -> dict[str, float]:
    """Conductor [m] from a point to each that no device parts from it, by the shortest way."""
    found = {point: 0.0}
    waiting = [point]
    while waiting:
        here = min(waiting, key=lambda each: found[each])
        waiting.remove(here)
        for other in state.block.around[here]:
            if other.protective or other is without:
                continue
            far = other.end if other.start == here else other.start
            metres = legs(state.plant, other)[0][1] if other.kind == "cable" else 0.0
            if far not in found or found[here] + metres < found[far]:
                found[far] = found[here] + metres
                waiting.append(far)
    return found


def _run(owner: Element, metres: float | None) -> Verdict:
    if metres is None:
        return UNPROVEN
    sheathed = owner.entry.get("sheathed")
    if metres <= BARE:
        return PASS
    if metres > SHEATHED:
        return FAIL
    return UNPROVEN if sheathed is None else PASS if sheathed else FAIL


CLEARS = {
    "fault-clears": fault_clears,
    "breaker-polarity": breaker_polarity,
    "source-protection": source_protection,
}
