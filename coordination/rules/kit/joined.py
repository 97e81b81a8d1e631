"""What lies beside what: the elements at a point, and walks along the closed ones.

Topology and conductor lengths only; currents are the study's business.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from heapq import heappop, heappush
from math import inf
from typing import Any

from coordination.rules.kit.kept import once

#: Whether a walk may pass an element, or stops at it.
Which = Callable[[Any], bool]


def is_fuse_or_breaker(element: Any) -> bool:
    """Whether the element is a fuse or a breaker, the devices that codes name."""
    return bool(element.kind in ("fuse", "breaker"))


def interrupts(element: Any) -> bool:
    """Whether the element interrupts a fault: a channel only if its part cannot fail closed."""
    return is_fuse_or_breaker(element) or (
        element.kind == "channel" and element.part.fails_shorted is False
    )


def everything(element: Any) -> bool:  # noqa: ARG001
    """True of every element."""
    return True


def nothing(element: Any) -> bool:  # noqa: ARG001
    """True of no element."""
    return False


def beyond(element: Any, point: str) -> str:
    """The other end of an element that begins or ends at this point."""
    far: str = element.end if element.start == point else element.start
    return far


def elements_at(point: str, study: Any, *, drawn: bool = False) -> tuple[Any, ...]:
    """Closed elements that begin or end at this point; with `drawn`, open ones too."""
    return once(_drawn, study.system).get(point, ()) if drawn else once(_closed, study).get(
        point, ()
    )  # fmt: skip


def is_battery(point: str, study: Any) -> bool:
    """Whether a battery that is in, in this condition, has its terminals at this point."""
    source = study.system.sources.get(point)
    return source is not None and source.part is not None and point not in study.condition.without


def reach(
    point: str, study: Any, crosses: Which = everything, *, limit: float = inf
) -> dict[str, float]:
    """Points reached over closed elements, with the conductor length to each [m].

    crosses -- whether the walk may pass an element; limit -- longest way to walk [m]
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
            if crosses(element):
                far, further = beyond(element, here), length + (element.length or 0.0)
                if far not in lengths and further <= limit:
                    heappush(heap, (further, far))
    return lengths


def batteries(points: Iterable[str], study: Any) -> tuple[Any, ...]:
    """Batteries among these points, in this condition."""
    return tuple(study.system.sources[point] for point in points if is_battery(point, study))


def limited_sources(points: Iterable[str], study: Any) -> tuple[Any, ...]:
    """Self-limiting sources among these points: alternators, chargers, converters' outputs."""
    system, out, at = study.system, study.condition.without, set(points)
    sources = [
        each for name, each in system.sources.items()
        if name in at and each.part is None and name not in out
    ]  # fmt: skip
    outputs = [each for name, each in system.converters.items() if f"{name}.output" in at]
    return (*sources, *outputs)


def loads(points: Iterable[str], study: Any) -> tuple[Any, ...]:
    """Equipment and converters whose input is among these points."""
    system, at = study.system, set(points)
    equipment = [each for name, each in system.equipment.items() if name in at]
    inputs = [each for name, each in system.converters.items() if f"{name}.input" in at]
    return (*equipment, *inputs)


def load_points(points: Iterable[str], study: Any) -> tuple[str, ...]:
    """Those of these points at which equipment or a converter's input stands."""
    inputs = {f"{name}.input" for name in study.system.converters}
    return tuple(point for point in points if point in study.system.equipment or point in inputs)


def bank(battery: Any, study: Any) -> tuple[Any, ...]:
    """Batteries joined to this one over closed elements, itself included."""
    return batteries(reach(battery.name, study), study)


def _drawn(system: Any) -> Mapping[str, tuple[Any, ...]]:
    return _by_point(system.elements())


def _closed(study: Any) -> Mapping[str, tuple[Any, ...]]:
    return _by_point(element for element in study.system.elements() if study.closed(element))


def _by_point(elements: Iterable[Any]) -> Mapping[str, tuple[Any, ...]]:
    at: dict[str, list[Any]] = {}
    for element in elements:
        at.setdefault(element.start, []).append(element)
        at.setdefault(element.end, []).append(element)
    return {point: tuple(each) for point, each in at.items()}
