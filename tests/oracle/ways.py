"""The ways a fault's current takes: shares of it, devices met, its least, a grid of it."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from tests.oracle.opening import slowest
from tests.oracle.plant import Element
from tests.oracle.state import State

#: Steps of the grid of currents, as a share.
STEP = 1.02
SLIGHT = 1e-6
Way = tuple[str, str, float]


def ways(element: Element) -> tuple[Way, Way]:
    """In by the start and out by the end, and the other way; +1 or -1 as drawn."""
    return (element.start, element.end, 1.0), (element.end, element.start, -1.0)


def shares_of(state: State, element: Element, way: Way) -> tuple[dict[str, float], set[str]]:
    """Device to its share [1] of a fault current through an element, in its direction as drawn.

    The larger of both bounds, and those for which something that is not stated matters. Empty
    where no battery feeds that way.
    """
    each: list[dict[str, float]] = []
    for dense in (state.most, *state.least):
        flows = dense.per_ampere(way[1])
        own = flows.get(element.name, 0.0) * way[2]
        if own <= SLIGHT:
            return {}, set()
        each.append({name: amps / own for name, amps in flows.items()})
    found = {name: max((share, each[1][name]), key=abs) for name, share in each[0].items()}
    moved = {name for name, share in each[1].items() if abs(share - each[2][name]) > 1e-4}
    return found, moved


def upstream(
    state: State, element: Element, way: Way, shares: dict[str, float]
) -> Iterator[tuple[Element, float, bool]]:
    """Devices that feed an element by one end: share, and whether none stands between."""
    met: dict[str, tuple[Element, float, bool]] = {}
    seen: dict[str, bool] = {}
    waiting = [(way[0], True)]
    while waiting:
        point, nearest = waiting.pop()
        if seen.get(point, False) or (point in seen and not nearest):
            continue
        seen[point] = nearest
        for other in state.block.around[point]:
            if other is element:
                continue
            far = other.end if other.start == point else other.start
            share = shares.get(other.name, 0.0) * (1.0 if other.end == point else -1.0)
            if share <= SLIGHT:
                continue
            if other.protective:
                first = nearest or (other.name in met and met[other.name][2])
                met[other.name] = (other, share, first)
            waiting.append((far, nearest and not other.protective))
    yield from met.values()


def reached(state: State, point: str, without: tuple[Element, ...], *, devices: bool) -> set[str]:
    """Points reached over closed elements; through devices, or not."""
    found = {point}
    waiting = [point]
    while waiting:
        here = waiting.pop()
        for other in state.block.around[here]:
            if other in without:
                continue
            far = other.end if other.start == here else other.start
            if far not in found and (devices or not other.protective):
                found.add(far)
                waiting.append(far)
    return found


def users(state: State) -> set[str]:
    return {point for point, _ in state.plant.draws.values()}


def lowest_of(state: State, element: Element, way: Way) -> float:
    """Least current [A] that flows that way, by a bolted fault; 0 if consumers hang beyond, or
    where what is not stated matters."""
    if users(state) & reached(state, way[1], (element,), devices=True):
        return 0.0
    each: list[float] = []
    for dense in state.least:
        least = inf
        for point in reached(state, way[1], (element,), devices=False):
            voltage = dense.voltages(dense.driven, [point])[0]
            amps = dense.flow(element, voltage) * way[2]
            if amps > 1e-6 * dense.fault(point, dense.driven):
                least = min(least, amps)
        each.append(least)
    one, other = each
    return one if one < inf and abs(one - other) <= 1e-4 * one else 0.0


def grid(low: float, high: float, corners: list[float]) -> Iterator[float]:
    yield high
    for corner in corners:
        for current in (corner * 0.9999, corner, corner * 1.0001):
            if low <= current <= high:
                yield current
    current = max(low, min(corners, default=high) * 0.99)
    while current < high:
        yield current
        current *= STEP


def slow_corners(device: Element) -> list[float]:
    part = device.part or {}
    energy = part.get("clearing_i2t")
    return [i for i, _ in slowest(part)] + ([] if energy is None else [(energy / 0.01) ** 0.5])
