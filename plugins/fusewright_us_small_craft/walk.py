"""What lies around a point up to the first devices: topology and lengths only."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from typing import Any


@dataclass(frozen=True, slots=True)
class Zone:
    """What is reached from a point over closed elements, no device crossed.

    lengths -- conductor length [m] to each point, by the shortest way
    devices -- devices met, each with the length to it
    cables  -- cables within, each with the length up to its far end, along itself
    """

    lengths: dict[str, float]
    devices: tuple[tuple[Any, float], ...]
    cables: tuple[tuple[Any, float], ...]

    def batteries(self, study: Any) -> tuple[Any, ...]:
        """Batteries in the zone, in this condition."""
        return tuple(source for source in _sources(self, study) if source.part is not None)

    def limited(self, study: Any) -> tuple[Any, ...]:
        """Self-limiting sources in the zone: alternators, chargers, converters' outputs."""
        outputs = study.system.converters.values()
        converters = [each for each in outputs if f"{each.name}.output" in self.lengths]
        return (*(each for each in _sources(self, study) if each.part is None), *converters)

    def loads(self, study: Any) -> tuple[Any, ...]:
        """Equipment and converter inputs in the zone."""
        system = study.system
        inputs = [
            each for each in system.converters.values() if f"{each.name}.input" in self.lengths
        ]
        return (*(e for name, e in system.equipment.items() if name in self.lengths), *inputs)


def is_device(element: Any) -> bool:
    """Whether the element is a fuse or a breaker; electronics are no device of these clauses."""
    return element.kind in ("fuse", "breaker")


def zone(
    points: str | Iterable[str],
    study: Any,
    *,
    without: Any = None,
    free: Callable[[Any], bool] | None = None,
) -> Zone:
    """Everything up to the first devices, one element taken out; what `free` says has no length."""
    at = _elements_by_point(study)
    lengths: dict[str, float] = {}
    devices: dict[str, tuple[Any, float]] = {}
    cables: dict[str, tuple[Any, float]] = {}
    heap = [(0.0, point) for point in ([points] if isinstance(points, str) else points)]
    while heap:
        length, here = heappop(heap)
        if here in lengths:
            continue
        lengths[here] = length
        for element in at.get(here, ()):
            if element is without:
                continue
            if is_device(element):
                devices.setdefault(element.name, (element, length))
                continue
            beyond = element.end if element.start == here else element.start
            own = 0.0 if free is not None and free(element) else element.length or 0.0
            further = length + own
            if element.kind == "cable":
                cables.setdefault(element.name, (element, further))
            if beyond not in lengths:
                heappush(heap, (further, beyond))
    return Zone(lengths, tuple(devices.values()), tuple(cables.values()))


def spread(
    points: Sequence[str], study: Any, *, without: Iterable[Any] = (), closed: Iterable[str] = ()
) -> Zone:
    """Every point reached, devices crossed, some elements and points taken out."""
    at, barred = _elements_by_point(study), frozenset(closed)
    out = {element.name for element in without}
    met, waiting = set(points), list(points)
    while waiting:
        for element in at.get(waiting.pop(), ()):
            if element.name in out:
                continue
            for beyond in (element.start, element.end):
                if beyond not in met and beyond not in barred:
                    met.add(beyond)
                    waiting.append(beyond)
    return Zone(dict.fromkeys(met, 0.0), (), ())


def bank(source: Any, study: Any) -> tuple[Any, ...]:
    """Batteries joined to this one over closed elements, devices crossed, itself included.

    A switch that is normally open joins no bank where an exceptional condition closes it.
    """
    normal = study.condition.name == "normal"
    links = () if normal else [e for e in study.system.elements() if e.normally_open]
    return spread([source.name], study, without=links).batteries(study)


def _sources(inside: Zone, study: Any) -> list[Any]:
    out = study.condition.without
    sources = study.system.sources
    return [each for name, each in sources.items() if name in inside.lengths and name not in out]


# Rules ask about one study many times in turn: the last answer is kept.
_last: list[Any] = []


def _elements_by_point(study: Any) -> dict[str, list[Any]]:
    if _last and _last[0] is study:
        kept: dict[str, list[Any]] = _last[1]
        return kept
    at: dict[str, list[Any]] = {}
    for element in study.system.elements():
        if study.closed(element):
            for end in (element.start, element.end):
                at.setdefault(end, []).append(element)
    _last[:] = [study, at]
    return at
