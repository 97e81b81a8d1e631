"""A system with one figure changed, everywhere it stands; nothing else of it is another."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import replace
from typing import Any, TypeVar

from coordination.model import Element, Place, System

_T = TypeVar("_T")
#: A system and a value [SI] to the system with that value.
Put = Callable[[System, float], System]


def in_part(part_id: str, change: Callable[[Any, float], Any]) -> Put:
    """Changes a part wherever it is fitted.

    change -- the part and a value to the changed part
    """

    def put(system: System, value: float) -> System:
        def changed(thing: Any) -> Any:
            part = thing.part
            if part is None or part.id != part_id:
                return thing
            return replace(thing, part=change(part, value))

        sources = {name: changed(each) for name, each in system.sources.items()}
        return with_elements(replace(system, sources=sources), changed)

    return put


def in_elements(names: Collection[str], change: Callable[[Element, float], Element]) -> Put:
    """Changes the elements of these names."""

    def put(system: System, value: float) -> System:
        return with_elements(
            system, lambda each: change(each, value) if each.name in names else each
        )

    return put


def in_group(group: str, name: str, change: Callable[[Any, float], Any]) -> Put:
    """Changes one thing of a section of the file: sources, equipment, converters, conditions."""

    def put(system: System, value: float) -> System:
        things: Mapping[str, Any] = getattr(system, group)
        changed: dict[str, Any] = {group: {**things, name: change(things[name], value)}}
        return replace(system, **changed)

    return put


def in_place(place: Place, end: str) -> Put:
    """Changes the warmest ("max") or coldest ("min") air of a place, for all that stands there."""

    def put(system: System, value: float) -> System:
        if place.coldest is None:
            warm = replace(place, ambient=value)
        else:
            cold, hot = moved(place.coldest, place.ambient, end, value)
            warm = replace(place, coldest=cold, ambient=hot)

        def shifted(thing: _T) -> _T:
            here: Any = thing
            return replace(here, place=warm) if here.place == place else thing

        def all_shifted(things: Mapping[str, _T]) -> dict[str, _T]:
            return {name: shifted(each) for name, each in things.items()}

        places = {name: warm if each == place else each for name, each in system.places.items()}
        changed = replace(
            system,
            places=places,
            sources=all_shifted(system.sources),
            busbars=all_shifted(system.busbars),
            equipment=all_shifted(system.equipment),
            converters=all_shifted(system.converters),
        )
        return with_elements(changed, shifted)

    return put


def with_elements(system: System, change: Callable[[Element], Element]) -> System:
    """The system with every element changed as `change` says."""
    circuits = {
        name: replace(circuit, elements=tuple(map(change, circuit.elements)))
        for name, circuit in system.circuits.items()
    }
    return replace(system, circuits=circuits)


def field(name: str) -> Callable[[Any, float], Any]:
    """Sets a plain field."""
    return lambda thing, value: replace(thing, **{name: value})


def current_of(name: str) -> Callable[[Any, float], Any]:
    """Sets the current of a field that is a current for a time."""
    return lambda thing, value: replace(
        thing, **{name: replace(getattr(thing, name), current=value)}
    )


def band_end(name: str, end: str) -> Callable[[Any, float], Any]:
    """Sets one end of a band ("min", "max", or "both"); the other moves along where it must."""
    return lambda thing, value: replace(thing, **{name: _band(getattr(thing, name), end, value)})


def _band(band: Any, end: str, value: float) -> Any:
    low, high = moved(band.min, band.max, end, value)
    return replace(band, min=low, max=high)


def moved(low: float, high: float, end: str, value: float) -> tuple[float, float]:
    """Both ends once one has the value: a least one is never above a largest one."""
    if end == "both":
        return value, value
    return (value, max(value, high)) if end == "min" else (min(value, low), value)
