"""What is reached from a point over closed elements: topology and lengths only."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from heapq import heappop, heappush
from typing import Any


def reach(point: str, study: Any, crosses: Callable[[Any], bool]) -> dict[str, float]:
    """Points reached from one, with the conductor length to each [m] along the shortest way.

    crosses -- whether the walk may pass an element; only closed ones are asked about
    """
    at = _elements_by_point(study)
    lengths: dict[str, float] = {}
    heap = [(0.0, point)]
    while heap:
        length, here = heappop(heap)
        if here in lengths:
            continue
        lengths[here] = length
        for element in at.get(here, ()):
            if crosses(element):
                beyond = element.end if element.start == here else element.start
                heappush(heap, (length + (element.length or 0.0), beyond))
    return lengths


def batteries(points: Iterable[str], study: Any) -> tuple[Any, ...]:
    """Batteries among these points, in this condition."""
    sources, out = study.system.sources, study.condition.without
    found = (sources[point] for point in points if point in sources and point not in out)
    return tuple(source for source in found if source.part is not None)


def _elements_by_point(study: Any) -> dict[str, list[Any]]:
    at: dict[str, list[Any]] = {}
    for element in study.system.elements():
        if study.closed(element):
            for end in (element.start, element.end):
                at.setdefault(end, []).append(element)
    return at
