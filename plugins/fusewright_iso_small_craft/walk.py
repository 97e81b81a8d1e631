"""What lies around a point, by topology and lengths only."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from heapq import heappop, heappush
from typing import Any

Stops = Callable[[Any], bool]


@dataclass(frozen=True, slots=True)
class Zone:
    """What is reached from a point before the first elements at which the walk stops.

    lengths -- conductor length [m] to each point, by the shortest way
    met     -- elements at which it stopped, each with the length to it
    cables  -- cables within, each with the length up to its far end, along itself
    way     -- point to the element by which it was reached, and the point before it
    """

    lengths: dict[str, float]
    met: tuple[tuple[Any, float], ...]
    cables: tuple[tuple[Any, float], ...]
    way: dict[str, tuple[Any, str]]

    def batteries(self, study: Any) -> tuple[Any, ...]:
        """Batteries in the zone, in this condition."""
        return tuple(source for source in self._sources(study) if source.part is not None)

    def limited(self, study: Any) -> tuple[Any, ...]:
        """Self-limiting sources in the zone: alternators, chargers, converters' outputs."""
        outputs = study.system.converters.values()
        converters = [each for each in outputs if f"{each.name}.output" in self.lengths]
        return (*(each for each in self._sources(study) if each.part is None), *converters)

    def loads(self, study: Any) -> tuple[Any, ...]:
        """Equipment and converter inputs in the zone."""
        system = study.system
        inputs = [
            each for each in system.converters.values() if f"{each.name}.input" in self.lengths
        ]
        return (*(e for name, e in system.equipment.items() if name in self.lengths), *inputs)

    def _sources(self, study: Any) -> Iterator[Any]:
        out = study.condition.without
        for name, source in study.system.sources.items():
            if name in self.lengths and name not in out:
                yield source


def is_device(element: Any) -> bool:
    """Whether the element is a fuse or a breaker, the devices that the standard names."""
    return bool(element.kind in ("fuse", "breaker"))


def is_switch(element: Any) -> bool:
    """Whether the element is a switch."""
    return bool(element.kind == "disconnect")


def nothing(element: Any) -> bool:  # noqa: ARG001
    """Stops nowhere."""
    return False


def zone(
    point: str, study: Any, stops: Stops, *, drawn: bool = False, skip: Stops = nothing
) -> Zone:
    """Everything from a point up to where the walk stops, what `skip` says left out.

    drawn -- over open elements too
    """
    at = _elements_by_point(study, drawn=drawn)
    lengths: dict[str, float] = {}
    met: dict[str, tuple[Any, float]] = {}
    cables: dict[str, tuple[Any, float]] = {}
    way: dict[str, tuple[Any, str]] = {}
    heap: list[tuple[float, str, Any, str]] = [(0.0, point, None, "")]
    while heap:
        length, here, by, before = heappop(heap)
        if here in lengths:
            continue
        lengths[here] = length
        if by is not None:
            way[here] = (study_element(study, by), before)
        for element in at.get(here, ()):
            if skip(element):
                continue
            if stops(element):
                met.setdefault(element.name, (element, length))
                continue
            beyond = element.end if element.start == here else element.start
            further = length + (element.length or 0.0)
            if element.kind == "cable":
                cables.setdefault(element.name, (element, further))
            if beyond not in lengths:
                heappush(heap, (further, beyond, element.name, here))
    return Zone(lengths, tuple(met.values()), tuple(cables.values()), way)


def study_element(study: Any, name: str) -> Any:
    """The element of that name."""
    return _kept(study)["name", name]


def elements_to(point: str, inside: Zone) -> Iterator[Any]:
    """The elements on the shortest way from a point back to where the walk began."""
    while point in inside.way:
        element, point = inside.way[point]
        yield element


def of_starter(element: Any, study: Any) -> bool:
    """Whether the element lies in a circuit that ends at an engine's starter."""
    circuit = study.system.circuits[element.circuit]
    ends = (study.system.equipment.get(point) for point in (circuit.start, circuit.end))
    return any(each is not None and each.cranking for each in ends)


# Rules ask about one study many times in turn: the last answer is kept.
_last: list[Any] = []


def _elements_by_point(study: Any, *, drawn: bool) -> dict[str, list[Any]]:
    found: dict[str, list[Any]] = _kept(study)["drawn" if drawn else "closed", ""]
    return found


def _kept(study: Any) -> dict[tuple[str, str], Any]:
    if not (_last and _last[0] is study):
        drawn: dict[str, list[Any]] = {}
        closed: dict[str, list[Any]] = {}
        made: dict[tuple[str, str], Any] = {("drawn", ""): drawn, ("closed", ""): closed}
        for element in study.system.elements():
            made["name", element.name] = element
            for end in (element.start, element.end):
                drawn.setdefault(end, []).append(element)
                if study.closed(element):
                    closed.setdefault(end, []).append(element)
        _last[:] = [study, made]
    kept: dict[tuple[str, str], Any] = _last[1]
    return kept
