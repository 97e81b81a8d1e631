"""Judges withstand by brute force: every current on a fine grid, one at a time.

In pieces that limited sources alone feed, they give all they can, and no more. The rise of the
current is neglected, so the judge is the milder one there. Within a cut of several devices,
energies add up as (√J₁ + √J₂ + …)², each device with its share of the current until it has cleared.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import inf, sqrt

from tests.oracle.heat import bears, hottest, overloaded, warmed
from tests.oracle.opening import cleared, slowest
from tests.oracle.plant import Element, Part, legs
from tests.oracle.state import FAIL, NOTE, PASS, UNPROVEN, State, Verdict, against, worst
from tests.oracle.ways import Way, grid, lowest_of, reached, shares_of, slow_corners, upstream, ways

#: Time [s] up to which no heat escapes.
SHORT = 5.0


def cable_withstand(state: State, element: Element) -> Verdict | None:
    """Each leg, for each end that batteries feed."""
    if element.kind != "cable" or not state.plant.closed(element, state.condition):
        return None
    found = [verdict for way in ways(element) for verdict in _withstand(state, element, way)]
    return worst(found)


def _withstand(state: State, cable: Element, way: Way) -> Iterator[Verdict]:
    near = reached(state, way[0], (cable,), devices=False)
    batteries = {s.point for s in state.block.present if s.part is not None}
    if near & batteries:
        yield NOTE
        return
    shares, moved = shares_of(state, cable, way)
    highest = abs(state.most.arriving(cable)[0 if way[2] > 0 else 1])
    # Limited sources alone give all they can wherever the fault is: shares move, the sum does not.
    most = inf if state.island(cable.start) in state.block.batteries else _all(state, cable)
    cut = [(device, min(share, most / highest) if highest else share)
           for device, share, first in upstream(state, cable, way, shares) if first]  # fmt: skip
    if not cut:
        return
    if not state.strong(cable) or any(
        device.name in moved or not _known(state, device) for device, _ in cut
    ):
        yield UNPROVEN
        return
    lowest = min(lowest_of(state, cable, way), highest)
    corners = [i / share for dev, share in cut for i in slow_corners(dev)]
    yield from _legs(state, cable, cut, list(grid(lowest, highest, corners)))
    yield _for_good(state, cable, cut, highest)


def _all(state: State, cable: Element) -> float:
    """What the limited sources of a piece give together [A]."""
    piece = state.island(cable.start)
    return sum(s.limit for s in state.block.present if state.island(s.point) == piece)


def _for_good(
    state: State, cable: Element, cut: list[tuple[Element, float]], highest: float
) -> Verdict:
    """The largest fault's parts that no device ends, against the ampacity."""
    parts = [highest * share for device, share in cut if inf == cleared(
        device.part or {}, highest * share, state.volts(device.start, device.end))]  # fmt: skip
    return against(sum(parts), state.ampacity(cable)) if parts else PASS


def _known(state: State, device: Element) -> bool:
    part = device.part
    if part is None or device.kind == "channel":
        return False
    volts = state.volts(device.start, device.end)
    marked = volts is not None and any(volts <= u for u, _ in part.get("interrupt_ratings", ()))
    return bool(slowest(part)) or bool(part.get("clearing_i2t") and marked)


def _legs(
    state: State, cable: Element, cut: list[tuple[Element, float]], currents: list[float]
) -> Iterator[Verdict]:
    both = legs(state.plant, cable)
    if len(both) < 2:
        yield UNPROVEN
    for number, (part, _, _) in enumerate(both):
        yield _leg(state, cable, cut, currents, number, part)


def _leg(
    state: State, cable: Element, cut: list[tuple[Element, float]], currents: list[float],
    number: int, part: Part,
) -> Verdict:  # fmt: skip
    limit, rated, end = state.ampacity(cable, number), part.get("insulation_temperature"), hottest(
        part)  # fmt: skip
    if rated is None or end is None:
        return UNPROVEN
    load = state.load(cable)
    known = load is not None and limit is not None and limit > 0
    before = cable.ambient + (rated - cable.ambient) * (load / limit) ** 2 if known else rated
    energy = bears(part["area"], before, end)
    if energy is None:
        return FAIL
    runs = legs(state.plant, cable)[number][2]
    most = 0.0
    for current in currents:
        severity = _severity(state, cable, cut, current, part, runs, limit, before, end, energy)
        if severity is None:
            return UNPROVEN
        most = max(most, severity)
    return against(most, 1.0)


def _severity(
    state: State, cable: Element, cut: list[tuple[Element, float]], current: float, part: Part,
    runs: int, limit: float | None, before: float, end: float, energy: float,
) -> float | None:  # fmt: skip
    """What a current does over what is allowed [1]; what never ends is not judged here."""
    amounts = [
        (cleared(device.part or {}, current * share, state.volts(device.start, device.end)),
         current * share)
        for device, share in cut
    ]  # fmt: skip
    short = max((seconds for seconds, _ in amounts if seconds <= SHORT), default=0.0)
    root = sum(amps * sqrt(min(seconds, short)) for seconds, amps in amounts)
    let_through = (root / runs) ** 2
    slow = sorted(each for each in amounts if SHORT < each[0] < inf)
    lasting = sum(amps for seconds, amps in amounts if seconds > SHORT)
    if not slow:
        return let_through / energy
    if limit is None:
        return None
    if lasting <= 1.45 * limit:
        return let_through / energy
    if limit == 0.0:
        return inf
    hot = most = warmed(part["area"], before, let_through)
    for n, (seconds, amps) in enumerate(slow):
        for_seconds = seconds - (slow[n - 1][0] if n else 0.0)
        hot = overloaded(part, cable.ambient, limit / runs, lasting / runs, hot, for_seconds)
        most, lasting = max(most, hot), lasting - amps
    return most / end
