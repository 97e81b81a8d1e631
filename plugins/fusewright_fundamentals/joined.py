"""What lies beside what: the elements at a point, and walks along the closed ones.

Topology only; currents are the study's business.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from heapq import heappop, heappush
from math import inf
from typing import Any, TypeVar

_T = TypeVar("_T")

#: What interrupts a fault; a channel only where its part says that it cannot fail closed.
_DEVICES = ("fuse", "breaker")


def is_device(element: Any) -> bool:
    """Whether the element counts as a protective device."""
    return element.kind in _DEVICES or (
        element.kind == "channel" and element.part.fails_shorted is False
    )


def is_battery(point: str, study: Any) -> bool:
    """Whether a battery that is in, in this condition, has its terminals at this point."""
    source = study.system.sources.get(point)
    return source is not None and source.part is not None and point not in study.condition.without


def elements_at(point: str, study: Any) -> Iterator[Any]:
    """Closed elements that begin or end at this point."""
    at = once(_elements_by_point, study.system)
    return (element for element in at.get(point, ()) if study.closed(element))


def reach(
    point: str, study: Any, *, without: Any = None, devices: bool = False, limit: float = inf
) -> dict[str, float]:
    """Points reached from `point` over closed elements, with the conductor length to each [m].

    without -- an element not to walk through; devices -- whether to walk through those
    limit   -- longest way to walk [m]
    The length is along the shortest way; an element that is no cable has none.
    """
    lengths: dict[str, float] = {}
    heap = [(0.0, point)]
    while heap:
        length, here = heappop(heap)
        if here in lengths:
            continue
        lengths[here] = length
        for element in elements_at(here, study):
            if element is not without and (devices or not is_device(element)):
                far = element.end if element.start == here else element.start
                further = length + (element.length or 0.0)
                if far not in lengths and further <= limit:
                    heappush(heap, (further, far))
    return lengths


def at_battery(point: str, study: Any) -> bool:
    """Whether neither device nor drawn cable lies between this point and a battery."""
    return point in once(_battery_points, study)


def joined_batteries(point: str, study: Any) -> tuple[str, ...]:
    """Batteries joined to this battery's point over closed elements, itself included."""
    return once(_banks, study)[point]


def _elements_by_point(system: Any) -> Mapping[str, list[Any]]:
    at: dict[str, list[Any]] = {}
    for element in system.elements():
        at.setdefault(element.start, []).append(element)
        at.setdefault(element.end, []).append(element)
    return at


def _battery_points(study: Any) -> frozenset[str]:
    batteries = (point for point in study.system.sources if is_battery(point, study))
    return frozenset(point for one in batteries for point in reach(one, study, limit=0.0))


def _banks(study: Any) -> Mapping[str, tuple[str, ...]]:
    banks: dict[str, tuple[str, ...]] = {}
    for point in study.system.sources:
        if point not in banks and is_battery(point, study):
            met = reach(point, study, devices=True)
            bank = tuple(other for other in met if is_battery(other, study))
            banks.update(dict.fromkeys(bank, bank))
    return banks


#: Answers kept: rules ask about one system, and its few studies, many times in turn.
MOST_KEPT = 100
#: With each what it is about, or another one could come to have its id.
_kept: dict[tuple[Any, int], tuple[Any, Any]] = {}


def once(make: Callable[[Any], _T], about: Any) -> _T:
    """What `make` makes of a system or a study, kept."""
    key = (make, id(about))
    kept = _kept.get(key)
    if kept is None:
        if len(_kept) >= MOST_KEPT:
            _kept.clear()
        kept = _kept[key] = (about, make(about))
    answer: _T = kept[1]
    return answer
