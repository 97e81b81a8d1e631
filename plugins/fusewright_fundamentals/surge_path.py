"""Whose surge may flow through a switch: equipment on one side of it, a source on the other.

Looks at what is connected, not at how much flows: in a loop everything connected counts.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any


def surging(switch: Any, study: Any) -> Iterator[Any]:
    """Equipment that states a surge, draws in this condition and may do so through `switch`."""
    if not study.closed(switch):
        return
    near = _reach(switch.start, switch, study)
    far = _reach(switch.end, switch, study)
    sources = _sources(study)
    for name, equipment in study.system.equipment.items():
        if equipment.surge is None or study.condition.draw.get(name, 1.0) == 0:
            continue
        if (name in near and far & sources) or (name in far and near & sources):
            yield equipment


def _reach(start: str, without: Any, study: Any) -> set[str]:
    """Points connected with `start` when `without` is taken out."""
    links: dict[str, list[str]] = {}
    for element in study.system.elements():
        if element is not without and study.closed(element):
            links.setdefault(element.start, []).append(element.end)
            links.setdefault(element.end, []).append(element.start)
    found, waiting = {start}, [start]
    while waiting:
        for point in links.get(waiting.pop(), ()):
            if point not in found:
                found.add(point)
                waiting.append(point)
    return found


def _sources(study: Any) -> set[str]:
    """Points at which anything feeds the network in this condition."""
    names = set(study.system.sources) | {f"{name}.output" for name in study.system.converters}
    return names - set(study.condition.without)
