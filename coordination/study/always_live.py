"""Which points stay live when every switch that a person works is open.

The one answer for the diagram, the labels, the commissioning record and the study of outages. A
battery's own contactor is no such switch, nor is a breaker or an electronic output: calling a
live part dead is the worse error.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from coordination.model import Element, System


class Live(NamedTuple):
    """Points that are live then.

    kept -- a battery feeds them; fed -- what limits itself may: a charger, a converter's output
    """

    kept: frozenset[str]
    fed: frozenset[str]

    @property
    def points(self) -> frozenset[str]:
        """Both."""
        return self.kept | self.fed


def by_hand(element: Element) -> bool:
    """Whether it is a switch that a person works, and no battery's own contactor."""
    return element.kind == "disconnect" and element.operated_by is None


def live_points(system: System) -> Live:
    """The points that no switch turns off, as the system is drawn."""
    beyond: dict[str, set[str]] = {}
    for element in system.elements():
        if not element.normally_open and not by_hand(element):
            beyond.setdefault(element.start, set()).add(element.end)
            beyond.setdefault(element.end, set()).add(element.start)
    kept = _reached(beyond, (name for name, each in system.sources.items() if each.part))
    for name in system.converters:
        beyond.setdefault(f"{name}.input", set()).add(f"{name}.output")
    return Live(kept, _reached(beyond, system.sources) - kept)


def _reached(beyond: Mapping[str, set[str]], starts: Iterable[str]) -> frozenset[str]:
    found = set(starts)
    waiting = sorted(found)
    while waiting:
        for point in beyond.get(waiting.pop(), set()) - found:
            found.add(point)
            waiting.append(point)
    return frozenset(found)
