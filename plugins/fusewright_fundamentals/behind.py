"""What stands behind an element, seen through it: batteries, self-limiting sources, consumers.

Counts only, over the closed elements; in a loop everything connected stands behind.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import dataclass, field
from coordination.rules.kit.joined import elements_at, is_battery
from coordination.rules.kit.kept import once


@dataclass(frozen=True, slots=True)
class Behind:
    """Numbers of batteries, starters and other consumers; what limited sources give [A]."""

    batteries: int = 0
    consumers: int = 0
    starters: int = 0
    limited: float = 0.0

    def __add__(self, other: Behind) -> Behind:
        return Behind(
            self.batteries + other.batteries,
            self.consumers + other.consumers,
            self.starters + other.starters,
            self.limited + other.limited,
        )

    def __sub__(self, other: Behind) -> Behind:
        return Behind(
            self.batteries - other.batteries,
            self.consumers - other.consumers,
            self.starters - other.starters,
            max(0.0, self.limited - other.limited),
        )


@dataclass(slots=True)
class _Survey:
    """Per element of the search tree that parts it in two: the point behind, and what is there.

    root -- point to the first point of its piece; whole -- that point to all of the piece
    """

    parts: dict[str, tuple[str, Behind]] = field(default_factory=dict)
    root: dict[str, str] = field(default_factory=dict)
    whole: dict[str, Behind] = field(default_factory=dict)


def behind(element: Any, end: str, study: Any) -> Behind:
    """What stands on the side of a closed element that its "start" or "end" points to."""
    survey: _Survey = once(_survey, study)
    point = getattr(element, end)
    whole = survey.whole[survey.root[point]]
    if element.name not in survey.parts:
        return whole
    far, part = survey.parts[element.name]
    return part if point == far else whole - part


def _survey(study: Any) -> _Survey:
    survey = _Survey()
    for element in study.system.elements():
        if study.closed(element) and element.start not in survey.root:
            _walk(element.start, survey, study)
    return survey


def _walk(first: str, survey: _Survey, study: Any) -> None:
    """Depth-first search of one piece (Tarjan 1974, bridges by lowest reach), no recursion."""
    entered, lowest = {first: 0}, {first: 0}
    standing = {first: _standing(first, study)}
    stack: list[tuple[str, Any, Iterator[Any]]] = [(first, None, iter(elements_at(first, study)))]
    while stack:
        point, came, edges = stack[-1]
        survey.root[point] = first
        element = next(edges, None)
        if element is None:
            stack.pop()
            if stack:
                above = stack[-1][0]
                lowest[above] = min(lowest[above], lowest[point])
                standing[above] += standing[point]
                if lowest[point] > entered[above]:
                    survey.parts[came.name] = (point, standing[point])
            continue
        if element is came:
            continue
        far = element.end if element.start == point else element.start
        if far in entered:
            lowest[point] = min(lowest[point], entered[far])
        else:
            entered[far] = lowest[far] = len(entered)
            standing[far] = _standing(far, study)
            stack.append((far, element, iter(elements_at(far, study))))
    survey.whole[first] = standing[first]


def _standing(point: str, study: Any) -> Behind:
    """What has its terminals at this point."""
    system, without = study.system, study.condition.without
    if is_battery(point, study):
        return Behind(batteries=1)
    if point in system.equipment:
        cranking = system.equipment[point].cranking
        return Behind(consumers=int(not cranking), starters=int(cranking))
    source, name = system.sources.get(point), point.rpartition(".")[0]
    if source is not None and source.current_limited and point not in without:
        return Behind(limited=source.current_limited)
    if point.endswith(".input") and name in system.converters:
        return Behind(consumers=1)
    if point.endswith(".output") and name in system.converters and name not in without:
        return Behind(limited=system.converters[name].output_current or 0.0)
    return Behind()
