"""Uncertain inputs of what the file lists: supplies, loads, their shares, and the air."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

from coordination.margins import changing
from coordination.margins.inputs import Input
from coordination.model import Condition, Place, System
from coordination.named import Named

#: Field -> words before "of NAME", kind, dimension, unit.
_SUPPLY = {
    "current_limited": ("current limit", "current", "current", "A"),
    "voltage": ("voltage", "voltage", "voltage", "V"),
    "continuous": ("lasting current", "current", "current", "A"),
    "usable_depth": ("usable depth", "share", "ratio", ""),
}
_LOAD = {
    "current": ("current", "current", "current", "A"),
    "power": ("power", "power", "power", "W"),
    "efficiency": ("efficiency", "efficiency", "ratio", ""),
    "min_voltage": ("lowest voltage", "voltage", "voltage", "V"),
    "duty": ("duty", "share", "ratio", ""),
    "least_duty": ("least duty", "share", "ratio", ""),
}
_FOR_A_TIME = {
    "surge": "surge current",
    "start": "starting current",
    "stall": "stalled current",
}
_CONVERTER = {
    "output_current": ("output current", "current", "current", "A"),
    "output_voltage": ("output voltage", "voltage", "voltage", "V"),
    "efficiency": ("efficiency", "efficiency", "ratio", ""),
    "min_input_voltage": ("lowest input voltage", "voltage", "voltage", "V"),
}
_Fields = dict[str, tuple[str, str, str, str]]


def supply_inputs(system: System) -> Iterator[Input]:
    """Limits and voltages of current-limited sources and converters."""
    for source in system.sources.values():
        yield from _stated("sources", source, _SUPPLY)
    for converter in system.converters.values():
        yield from _stated("converters", converter, _CONVERTER)


def load_inputs(system: System) -> Iterator[Input]:
    """What equipment draws, for ever, for a time, and in each condition."""
    for equipment in system.equipment.values():
        yield from _stated("equipment", equipment, _LOAD)
        for name, words in _FOR_A_TIME.items():
            drawn = getattr(equipment, name)
            if drawn is not None:
                yield Input(
                    f"{words} of {equipment.name}", f"{equipment.name}: {name}.current",
                    "current", "current", "A", drawn.current,
                    equipment.written.get(f"{name}.current", ""), equipment.line,
                    changing.in_group("equipment", equipment.name, changing.current_of(name)),
                )  # fmt: skip
    for condition in system.conditions.values():
        for name in condition.draw:
            yield _drawn(condition, name)


def place_inputs(system: System) -> Iterator[Input]:
    """The air of every place where something stands, stated or not."""
    for place in _places(system):
        what = f"air temperature of {place.name}" if place.stated else _UNSTATED
        datum = f"{place.name}: ambient" if place.stated else "ambient, not stated"
        warmest, coldest = (changing.in_place(place, end) for end in ("max", "min"))
        yield Input(
            what, datum, "temperature", "temperature", "°C", place.ambient,
            place.written.get("ambient", ""), place.line, warmest,
            None if place.coldest is None else (place.coldest, coldest),
        )  # fmt: skip
        if place.coldest is not None:
            yield Input(
                f"coldest air of {place.name}", f"{place.name}: coldest", "temperature",
                "temperature", "°C", place.coldest, place.written.get("coldest", ""), place.line,
                coldest, (place.ambient, warmest),
            )  # fmt: skip


_UNSTATED = "air temperature where none is stated"


def _places(system: System) -> tuple[Place, ...]:
    things: list[Any] = [
        *system.sources.values(),
        *system.busbars.values(),
        *system.equipment.values(),
        *system.converters.values(),
        *system.elements(),
    ]
    kept: list[Place] = []
    for each in (*system.places.values(), *(thing.place for thing in things)):
        if each not in kept:
            kept.append(each)
    used = [thing.place for thing in things]
    return tuple(each for each in kept if each in used)


def _stated(group: str, thing: Named, fields: _Fields) -> Iterator[Input]:
    for name, (words, kind, dimension, unit) in fields.items():
        now = getattr(thing, name)
        if now is not None:
            end = _OTHER_END.get(name, "")
            beyond = getattr(thing, end) if end else None
            yield Input(
                f"{words} of {thing.name}", f"{thing.name}: {name}", kind, dimension, unit, now,
                thing.written.get(name, ""), thing.line, _put(group, thing, name),
                None if beyond is None else (beyond, _put(group, thing, end)),
            )  # fmt: skip


def _put(group: str, thing: Named, name: str) -> changing.Put:
    return changing.in_group(group, thing.name, _CHANGES.get(name, changing.field(name)))


def _duties(end: str) -> Callable[[Any, float], Any]:
    """Sets one of both duties; the other moves along where it must."""

    def change(thing: Any, value: float) -> Any:
        least = thing.least_duty
        if least is None or thing.duty is None:
            return replace(thing, **{"duty" if end == "max" else "least_duty": value})
        low, high = changing.moved(least, thing.duty, end, value)
        return replace(thing, least_duty=low, duty=high)

    return change


_OTHER_END = {"duty": "least_duty", "least_duty": "duty"}
_CHANGES = {"duty": _duties("max"), "least_duty": _duties("min")}


def _drawn(condition: Condition, name: str) -> Input:
    def change(each: Condition, value: float) -> Condition:
        return replace(each, draw={**each.draw, name: value})

    return Input(
        f"share that {name} draws in condition {condition.name}",
        f"{condition.name}: draw.{name}", "share", "ratio", "", condition.draw[name],
        condition.written.get(f"draw.{name}", ""), condition.line,
        changing.in_group("conditions", condition.name, change),
    )  # fmt: skip
