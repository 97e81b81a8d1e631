"""What serves one piece of equipment alone, and which charging sources ever see a battery."""

from __future__ import annotations

from coordination.model import Element, Equipment, System


def own_branch(system: System, equipment: Equipment) -> tuple[Element, ...]:
    """Elements between equipment and the first points where anything else is joined, as drawn.

    Opened, each takes nothing else with it: that is what a branch's own device is for. Closed or
    open makes no difference; a busbar that only joins two elements parts nothing.
    """
    around = _around(system)
    stops = {*system.sources, *system.equipment}
    stops.update(f"{name}.{side}" for name in system.converters for side in ("input", "output"))
    found: dict[str, Element] = {}
    for first in around.get(equipment.name, ()):
        element, point = first, equipment.name
        while element.name not in found:
            found[element.name] = element
            point = element.end if element.start == point else element.start
            if point in stops or len(around[point]) != 2:
                break
            one, other = around[point]
            element = other if one is element else one
    return tuple(found.values())


def beside_batteries(system: System) -> frozenset[str]:
    """Sources and converters' outputs joined to a battery when every element is closed."""
    around = _around(system)
    waiting = [name for name, source in system.sources.items() if source.part is not None]
    reached = set(waiting)
    while waiting:
        for element in around.get(waiting.pop(), ()):
            for far in (element.start, element.end):
                if far not in reached:
                    reached.add(far)
                    waiting.append(far)
    outputs = {f"{name}.output": name for name in system.converters}
    return frozenset(outputs.get(point, point) for point in reached)


def _around(system: System) -> dict[str, list[Element]]:
    around: dict[str, list[Element]] = {}
    for element in system.elements():
        around.setdefault(element.start, []).append(element)
        around.setdefault(element.end, []).append(element)
    return around
