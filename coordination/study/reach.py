"""Walking the network: what a conductor's end can be fed from, and which device stands between."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from heapq import heappop, heappush

from catalogue.frozen import dataclass
from catalogue.parts import Channel
from coordination.model import PROTECTIVE, Converter, Element, Source
from coordination.study.figures import Figures


def is_protective(element: Element) -> bool:
    """Whether an element interrupts a fault; a channel only where it cannot fail shorted."""
    if element.kind == "channel":
        return isinstance(element.part, Channel) and element.part.fails_shorted is False
    return element.kind in PROTECTIVE


@dataclass(frozen=True, slots=True)
class Zone:
    """What a walk reached without crossing a device.

    lengths -- conductor length [m] from where it began to each point reached
    devices -- (branch, its near point, its far point) of every device met, in the file's order
    """

    lengths: dict[int, float]
    devices: tuple[tuple[int, int, int], ...]


class Reach:
    """Walks through one network's closed elements."""

    def __init__(self, figures: Figures) -> None:
        self.figures, self.network = figures, figures.network
        self._zones: dict[tuple[int, int], Zone] = {}

    @cached_property
    def protective(self) -> list[bool]:
        """Whether each branch is a protective device."""
        return [is_protective(branch.element) for branch in self.network.branches]

    @cached_property
    def around(self) -> list[list[tuple[int, int]]]:
        """Branches at each point with the point beyond."""
        around: list[list[tuple[int, int]]] = [[] for _ in self.network.points]
        for number, branch in enumerate(self.network.branches):
            around[branch.start].append((number, branch.end))
            around[branch.end].append((number, branch.start))
        return around

    @cached_property
    def standing(self) -> dict[int, tuple[list[Source], list[Source | Converter]]]:
        """Batteries and limited sources by point."""
        found: dict[int, tuple[list[Source], list[Source | Converter]]] = {}
        for feed in self.network.feeds:
            found.setdefault(feed.point, ([], []))[0].append(feed.source)
        for injection in self.network.injections:
            found.setdefault(injection.point, ([], []))[1].append(injection.source)
        return found

    def zone(self, point: int, without: int = -1) -> Zone:
        """Everything from a point up to the first devices, one branch taken out."""
        if without >= 0 and not self.protective[without]:
            return self._walk(point, without)
        key = (point, without)
        if key not in self._zones:
            self._zones[key] = self._walk(point, -1) if without < 0 else self._less(point, without)
        return self._zones[key]

    def _less(self, point: int, without: int) -> Zone:
        whole = self.zone(point)
        return Zone(whole.lengths, tuple(d for d in whole.devices if d[0] != without))

    def _walk(self, point: int, without: int) -> Zone:
        lengths: dict[int, float] = {}
        devices: list[tuple[int, int, int]] = []
        waiting = [(0.0, point)]
        while waiting:
            length, here = heappop(waiting)
            if here in lengths:
                continue
            lengths[here] = length
            for branch, beyond in self.around[here]:
                if branch == without:
                    continue
                if self.protective[branch]:
                    devices.append((branch, here, beyond))
                elif beyond not in lengths:
                    heappush(waiting, (length + self.span(branch), beyond))
        return Zone(lengths, tuple(sorted(devices)))

    def span(self, branch: int) -> float:
        """Conductor length [m] of a branch, one way."""
        return self.network.branches[branch].element.length or 0.0

    def fed(self, point: int, branch: int, without: int = -1, past: Zone | None = None) -> bool:
        """Whether a source stands behind a branch as seen from a point.

        without -- a branch taken out; past -- points that the way to the source must not cross
        """
        shape = self.figures.shape
        if branch not in shape.chain_with:
            leaf = shape.leaves[self.figures.position[branch]]
            if leaf == point:
                return shape.island_sources[shape.island[leaf]] > shape.sources[leaf]
            return shape.sources[leaf] > 0
        ends = self.network.branches[branch]
        far = ends.end if ends.start == point else ends.start
        closed = {} if past is None else past.lengths
        return any(place in self.standing for place in self._spread(far, {branch, without}, closed))

    def _spread(self, start: int, without: set[int], closed: dict[int, float]) -> Iterator[int]:
        if start in closed:
            return
        seen = {start}
        waiting = [start]
        while waiting:
            point = waiting.pop()
            yield point
            for branch, beyond in self.around[point]:
                if branch not in without and beyond not in seen and beyond not in closed:
                    seen.add(beyond)
                    waiting.append(beyond)

    def spread(self, start: int, without: int) -> Iterator[int]:
        """Every point that is connected to one, a branch taken out."""
        return self._spread(start, {without}, {})

    def nearest_source(self, start: int, without: int) -> float | None:
        """Conductor length [m] to the nearest source, past any device; None if there is none."""
        seen: set[int] = set()
        waiting = [(0.0, start)]
        while waiting:
            length, point = heappop(waiting)
            if point in seen:
                continue
            seen.add(point)
            if point in self.standing:
                return length
            for branch, beyond in self.around[point]:
                if branch != without and beyond not in seen:
                    heappush(waiting, (length + self.span(branch), beyond))
        return None

    def batteries_beside(self, branch: int) -> tuple[bool, bool]:
        """Whether a battery stands at or behind the start of a branch, and the end."""
        ends, shape = self.network.branches[branch], self.figures.shape
        if branch in shape.chain_with:
            batteries = {feed.point for feed in self.network.feeds}
            start = set(self._spread(ends.start, {branch}, {}))
            if ends.end in start:
                return not batteries.isdisjoint(start), not batteries.isdisjoint(start)
            end = set(self._spread(ends.end, {branch}, {}))
            return not batteries.isdisjoint(start), not batteries.isdisjoint(end)
        leaf = shape.leaves[self.figures.position[branch]]
        behind = shape.batteries[leaf] > 0
        ahead = shape.island_batteries[shape.island[leaf]] > shape.batteries[leaf]
        return (behind, ahead) if ends.start == leaf else (ahead, behind)

    def sides_fed(self, branch: int) -> tuple[bool, bool]:
        """Whether a source stands at or behind the start of a branch, and at or behind its end."""
        ends = self.network.branches[branch]
        return self.fed(ends.end, branch), self.fed(ends.start, branch)
