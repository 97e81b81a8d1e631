"""What lies around a point before the first devices: points, conductor lengths, what is met.

Topology and lengths only.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from heapq import heappop, heappush
from typing import Any

from coordination.rules import dataclass
from coordination.rules.kit import joined
from coordination.rules.kit.joined import (
    Which,
    beyond,
    elements_at,
    is_fuse_or_breaker,
    nothing,
)


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
        """Batteries in the zone, in this condition, in the file's order."""
        at = self.lengths
        return joined.batteries((name for name in study.system.sources if name in at), study)

    def limited(self, study: Any) -> tuple[Any, ...]:
        """Self-limiting sources in the zone: alternators, chargers, converters' outputs."""
        return joined.limited_sources(self.lengths, study)

    def loads(self, study: Any) -> tuple[Any, ...]:
        """Equipment and converters whose input is in the zone."""
        return joined.loads(self.lengths, study)

    def elements_to(self, point: str) -> Iterator[Any]:
        """The elements on the shortest way from a point back to where the walk began."""
        while point in self.way:
            element, point = self.way[point]
            yield element


def zone(
    points: str | Iterable[str],
    study: Any,
    stops: Which = is_fuse_or_breaker,
    *,
    without: Any = None,
    free: Which = nothing,
    drawn: bool = False,
) -> Zone:
    """Everything from a point, or several, up to where the walk stops.

    stops -- at which elements; without -- an element left out; drawn -- over open elements too
    free  -- elements whose length does not count
    """
    lengths: dict[str, float] = {}
    met: dict[str, tuple[Any, float]] = {}
    cables: dict[str, tuple[Any, float]] = {}
    way: dict[str, tuple[Any, str]] = {}
    named: dict[str, Any] = {}
    starts = [points] if isinstance(points, str) else points
    heap: list[tuple[float, str, str, str]] = [(0.0, point, "", "") for point in starts]
    while heap:
        length, here, by, before = heappop(heap)
        if here in lengths:
            continue
        lengths[here] = length
        if by:
            way[here] = (named[by], before)
        for element in elements_at(here, study, drawn=drawn):
            if element is without:
                continue
            if stops(element):
                met.setdefault(element.name, (element, length))
                continue
            named[element.name] = element
            far = beyond(element, here)
            further = length + (0.0 if free(element) else element.length or 0.0)
            if element.kind == "cable":
                cables.setdefault(element.name, (element, further))
            if far not in lengths:
                heappush(heap, (further, far, element.name, here))
    return Zone(lengths, tuple(met.values()), tuple(cables.values()), way)
