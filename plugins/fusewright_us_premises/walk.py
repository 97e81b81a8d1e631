"""What is reached from a point over closed elements: topology and lengths only."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from heapq import heappop, heappush
from typing import Any


def reach(point: str, study: Any, crosses: Callable[[Any], bool]) -> dict[str, float]:
    """Points reached from one, with the conductor length to each [m] along the shortest way.

    crosses -- whether the walk may pass an element; only closed ones are asked about
    """
    lengths: dict[str, float] = {}
    heap = [(0.0, point)]
    while heap:
        length, here = heappop(heap)
        if here in lengths:
            continue
        lengths[here] = length
        for element in elements_at(here, study):
            if study.closed(element) and crosses(element):
                beyond = element.end if element.start == here else element.start
                heappush(heap, (length + (element.length or 0.0), beyond))
    return lengths


def batteries(points: Iterable[str], study: Any) -> tuple[Any, ...]:
    """Batteries among these points, in this condition."""
    sources, out = study.system.sources, study.condition.without
    found = (sources[point] for point in points if point in sources and point not in out)
    return tuple(source for source in found if source.part is not None)


def loads(points: Iterable[str], study: Any) -> tuple[str, ...]:
    """Names of the equipment and converter inputs among these points."""
    system = study.system
    inputs = {f"{name}.input" for name in system.converters}
    return tuple(point for point in points if point in system.equipment or point in inputs)


def bank(battery: Any, study: Any) -> tuple[Any, ...]:
    """Batteries joined to this one over closed elements, itself included."""
    return batteries(reach(battery.name, study, lambda _: True), study)


def elements_at(point: str, study: Any) -> tuple[Any, ...]:
    """Elements that begin or end at this point, open ones too."""
    if not _last or _last[0] is not study.system:
        at: dict[str, list[Any]] = {}
        for element in study.system.elements():
            for end in (element.start, element.end):
                at.setdefault(end, []).append(element)
        _last[:] = [study.system, {point: tuple(each) for point, each in at.items()}]
    found: tuple[Any, ...] = _last[1].get(point, ())
    return found


# Rules ask about one system many times in turn: the last answer is kept.
_last: list[Any] = []
