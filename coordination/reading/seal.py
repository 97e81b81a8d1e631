"""Makes what was read read-only through and through: no later stage, and no rule, may change it.

The records themselves are frozen; their mappings are not, until they are sealed here.
"""

from __future__ import annotations

from collections.abc import Iterator
from types import MappingProxyType
from typing import Any

from coordination.model import System

_MAPPINGS = (
    "places", "sources", "busbars", "equipment", "converters", "circuits", "conditions", "options",
    "shore", "ac_loads",
)  # fmt: skip


def sealed(system: System) -> System:
    """The system, all its mappings read-only."""
    for thing in _things(system):
        for name in ("written", "extra", "draw"):
            _seal(thing, name)
    for pack, values in system.options.items():
        if isinstance(system.options, dict):
            system.options[pack] = MappingProxyType(dict(values))
    for name in _MAPPINGS:
        _seal(system, name)
    return system


def _seal(thing: Any, name: str) -> None:
    if getattr(thing, name, None).__class__ is dict:
        object.__setattr__(thing, name, MappingProxyType(getattr(thing, name)))


def _things(system: System) -> Iterator[Any]:
    yield system
    for section in (
        system.places, system.conditions, system.circuits, system.shore, system.ac_loads,
    ):  # fmt: skip
        yield from section.values()
    for named in (system.sources, system.busbars, system.equipment, system.converters):
        for thing in named.values():
            yield from (thing, thing.place, getattr(thing, "part", None))
            yield from (getattr(thing, "mains", None), getattr(thing, "output", None))
    for element in system.elements():
        back = element.return_path
        yield from (element, element.place, element.part, back, back.part)
