"""What a chart is about: the elements on the way from what was named to the batteries.

Walks the drawing's closed elements; what the devices on it promise is for others.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Any

from catalogue.frozen import dataclass

if TYPE_CHECKING:
    from coordination.model import Element

#: Kinds of element that may have a time-current curve.
DEVICES = ("fuse", "breaker")


@dataclass(frozen=True, slots=True)
class Path:
    """A way from a place to the batteries.

    named    -- what it was asked for, in words
    device   -- the device whose current the chart's axis is; None: there is none on the path
    elements -- everything on it, nearest to the named place first
    """

    named: str
    device: Element | None
    elements: tuple[Element, ...]

    @property
    def devices(self) -> tuple[Element, ...]:
        """Its fuses and breakers."""
        return tuple(each for each in self.elements if each.kind in DEVICES)


def names_of(study: Any) -> tuple[str, ...]:
    """What a chart may be asked for."""
    system = study.system
    elements = (element.name for element in system.elements())
    return (*system.circuits, *elements, *system.equipment)


def path_of(study: Any, asked: Sequence[str]) -> Path:
    """The ways from everything that was asked for; see `names_of`."""
    system = study.system
    found: dict[str, Element] = {}
    first: Element | None = None
    for name in asked:
        seeds = tuple(_seeds(system, name))
        for element in (*seeds, *_ways(study, seeds)):
            found.setdefault(element.name, element)
        first = first or _first_device(study, name, seeds, found.values())
    return Path(" and ".join(asked), first, tuple(found.values()))


def worst_pair(study: Any) -> Path | None:
    """The way from the device whose pairs the parts' own data break worst; None: they break none.

    The most broken pairs count first, then the least margin.
    """
    found: dict[str, list[float]] = {}
    for pair in study.pairs():
        result = None if pair.alone else study.compared(pair).result
        if result is not None and result.standing == "broken":
            opens, cleared = result.worst.opens.time, result.worst.cleared.time
            margin = opens / cleared if opens is not None and cleared else 0.0
            found.setdefault(pair.down.name, []).append(margin)
    if not found:
        return None
    return path_of(study, (min(found, key=lambda name: (-len(found[name]), min(found[name]))),))


def deepest(study: Any) -> Path:
    """The way with most devices; the first of the file among equals."""
    best = Path("", None, ())
    for circuit in study.system.circuits.values():
        path = path_of(study, (circuit.name,))
        if len(path.devices) > len(best.devices) or not best.elements:
            best = path
    return best


def _seeds(system: Any, name: str) -> Iterator[Element]:
    """The elements that a name stands for; with a device, the rest of its circuit."""
    if name in system.circuits:
        yield from system.circuits[name].elements
        return
    for circuit in system.circuits.values():
        own = [element for element in circuit.elements if element.name == name]
        if own or name in (circuit.start, circuit.end):
            yield from (*own, *(each for each in circuit.elements if each not in own))


def _first_device(
    study: Any, name: str, seeds: Iterable[Element], found: Iterable[Element]
) -> Element | None:
    """The device that the axis belongs to: the named one, else the one nearest the load."""
    devices = [each for each in seeds if each.kind in DEVICES]
    for each in devices:
        if each.name == name:
            return each
    ranked = sorted(devices, key=lambda each: -len(study.pairs_below(each)))
    return next(iter(ranked), next((each for each in found if each.kind in DEVICES), None))


def _ways(study: Any, seeds: Sequence[Element]) -> Iterator[Element]:
    """Elements on the shortest way from the seeds to each battery, nearest first."""
    around: dict[str, list[tuple[Element, str]]] = {}
    for element in study.system.elements():
        if study.closed(element):
            around.setdefault(element.start, []).append((element, element.end))
            around.setdefault(element.end, []).append((element, element.start))
    came: dict[str, tuple[Element, str] | None] = dict.fromkeys(
        point for each in seeds for point in (each.start, each.end)
    )
    order = list(came)
    for point in order:
        for element, beyond in around.get(point, ()):
            if beyond not in came:
                came[beyond] = (element, point)
                order.append(beyond)
    yield from _back(came, [point for point in order if is_battery(study, point)])


def _back(
    came: dict[str, tuple[Element, str] | None], batteries: Iterable[str]
) -> Iterator[Element]:
    found: dict[str, tuple[int, Element]] = {}
    for point in batteries:
        way = []
        step = came[point]
        while step is not None:
            way.append(step[0])
            step = came[step[1]]
        for depth, element in enumerate(reversed(way)):
            found.setdefault(element.name, (depth, element))
    yield from (element for _, element in sorted(found.values(), key=lambda each: each[0]))


def is_battery(study: Any, point: str) -> bool:
    """Whether a battery that is in stands at a point."""
    source = study.system.sources.get(point)
    return (
        source is not None and source.part is not None and point not in study.condition.without
    )
