"""What stays alive behind opened switches: walks over the drawing from the sources.

Knows what is joined to what as drawn, whatever a condition opens or closes.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from typing import TYPE_CHECKING

from coordination.study.always_live import live_points

if TYPE_CHECKING:
    from coordination.model import Element, System


def batteries(system: System) -> tuple[str, ...]:
    """The points where batteries stand."""
    return tuple(name for name, source in system.sources.items() if source.part is not None)


def reached(
    system: System, starts: Collection[str], passes: Callable[[Element], bool]
) -> frozenset[str]:
    """Every point that can be walked to from the starts, by elements that `passes` allows."""
    around: dict[str, list[str]] = {}
    for element in system.elements():
        if passes(element):
            around.setdefault(element.start, []).append(element.end)
            around.setdefault(element.end, []).append(element.start)
    return _walk(around, starts)


def _walk(around: dict[str, list[str]], starts: Iterable[str]) -> frozenset[str]:
    waiting = list(starts)
    seen = set(waiting)
    while waiting:
        for point in around.get(waiting.pop(), ()):
            if point not in seen:
                seen.add(point)
                waiting.append(point)
    return frozenset(seen)


def as_drawn(element: Element) -> bool:
    """Whether an element is closed as drawn."""
    return not element.normally_open


def joins_batteries(system: System, element: Element) -> bool:
    """Whether an open link, once closed, joins batteries that are apart as drawn."""
    if element.kind != "disconnect" or not element.normally_open:
        return False
    sides = [reached(system, (end,), as_drawn) for end in (element.start, element.end)]
    standing = [side.intersection(batteries(system)) for side in sides]
    return all(standing) and standing[0] != standing[1]


def kept_on(system: System) -> frozenset[str]:
    """Points that a battery feeds with every switch open that a person works."""
    return live_points(system).kept


def live(system: System) -> frozenset[str]:
    """Points that any source or converter keeps alive then, however little it gives."""
    return live_points(system).points


def lost_on_trip(system: System) -> frozenset[str] | None:
    """Points without a battery once every battery with a contactor of its own has opened it.

    None where no contactor is drawn as worked by a battery: then the drawing does not tell.
    """
    if all(element.operated_by is None for element in system.elements()):
        return None
    starts = batteries(system)
    return reached(system, starts, as_drawn) - reached(system, starts, _tripped)


def left_on_trip(system: System, point: str) -> tuple[str, ...]:
    """Limited sources and converters that still reach a point then."""
    around = reached(system, (point,), _tripped)
    sources = [name for name, each in system.sources.items() if each.part is None]
    outputs = [f"{name}.output" for name in system.converters]
    return tuple(
        name.removesuffix(".output") for name in (*sources, *outputs) if name in around
    )


def _tripped(element: Element) -> bool:
    return as_drawn(element) and element.operated_by is None
