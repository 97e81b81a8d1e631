"""Judges selectivity by brute force: each pair at every current on a fine grid."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from tests.oracle.judge import derating
from tests.oracle.opening import cleared, fastest, opens, slowest
from tests.oracle.plant import Element
from tests.oracle.state import FAIL, PASS, UNPROVEN, State, Verdict, worst
from tests.oracle.ways import (
    Way,
    grid,
    lowest_of,
    reached,
    shares_of,
    slow_corners,
    upstream,
    users,
    ways,
)


def selectivity(state: State, element: Element) -> Verdict | None:
    """Each device upstream of this one, in either direction of fault current."""
    if not element.protective or not state.plant.closed(element, state.condition):
        return None
    return worst([v for way in ways(element) for v in _pairs(state, element, way)])


def _pairs(state: State, down: Element, way: Way) -> Iterator[Verdict]:
    shares, moved = shares_of(state, down, way)
    others = list(upstream(state, down, way, shares))
    alone = {u.name for u, _, _ in others if not users(state) & reached(
        state, way[0], (down, u), devices=True)}  # fmt: skip
    helpers = [u for u, share, _ in others
               if u.name in alone and u.circuit == down.circuit and abs(share - 1.0) < 1e-6]
    for up, share, _ in others:
        if up.name in alone or _bears_all(state, up):
            yield PASS
        elif up.name in moved:
            yield UNPROVEN
        else:
            yield _pair(state, down, way, up, share, helpers)


def _bears_all(state: State, up: Element) -> bool:
    """Whether it carries for good all that limited sources give where they alone feed."""
    piece = state.island(up.start)
    if piece in state.block.batteries or up.part is None:
        return False
    total = sum(s.limit for s in state.block.present if state.island(s.point) == piece)
    return opens(up.part, total, derating(up.part, up.ambient)) == inf


def _pair(
    state: State, down: Element, way: Way, up: Element, share: float, helpers: list[Element]
) -> Verdict:
    clears = [d.part for d in (down, *helpers) if d.part and d.kind != "channel"]
    below, above = down.part, up.part
    if below is None or above is None or up.kind == "channel" or not slowest(below):
        return UNPROVEN
    held = state.island(down.start) in state.block.batteries
    if held and (None in (state.load(down), state.load(up)) or not state.strong(down)):
        return UNPROVEN
    other = 0.0
    sign = 1.0 if _toward(state, way, up) else -1.0
    for case in state.flows[0] if held else ():
        other = max(other, case[up.name] * sign - share * case[down.name] * way[2])
    high = abs(state.most.arriving(down)[0 if way[2] > 0 else 1])
    low = min(max(slowest(below)[0][0], lowest_of(state, down, way)), high)
    factor = derating(above, up.ambient)
    corners = slow_corners(down) + [
        (amps * min(factor or 1.0, 1.0) - other) / share for amps, _ in fastest(above)
    ]
    if factor is not None and above.get("rated_current"):
        corners.append((above["rated_current"] * factor - other) / share)
    volts = state.volts(down.start, down.end)
    used = 0.0
    for current in grid(low, high, corners):
        if low <= current <= high:
            earliest = opens(above, current * share + other, factor)
            latest = min(cleared(part, current, volts) for part in clears)
            if earliest < inf:
                used = max(used, latest / earliest if earliest > 0 else inf)
    return Verdict("pass" if used < 1.0 else FAIL.verdict, used)


def _toward(state: State, way: Way, up: Element) -> bool:
    """Whether the fault's current flows through the upstream device as it is drawn."""
    return state.most.per_ampere(way[1])[up.name] > 0
