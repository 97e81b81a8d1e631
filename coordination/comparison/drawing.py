"""What stands in a drawing, thing by thing and field by field, so that two can be held apart."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from datetime import date
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.report.wording import number

if TYPE_CHECKING:
    from coordination.model import Element, System

#: Fields that place a thing and do not describe it.
_PLACING = ("name", "line", "written", "elements", "number", "start", "end", "circuit")
_UNITS = {
    "ambient": "°C", "length": "m", "distance": "m", "spacing": "m", "current": "A", "power": "W",
    "min_voltage": "V", "voltage": "V", "current_limited": "A", "output_current": "A",
    "output_voltage": "V", "min_input_voltage": "V", "resistance": "Ω", "resistance_min": "Ω",
    "resistance_max": "Ω", "inrush_resistance": "Ω", "capacitance": "F", "time": "s",
}  # fmt: skip


class Field(NamedTuple):
    """What a thing states, to compare and to show."""

    value: Any
    text: str


class Thing(NamedTuple):
    """One thing of the drawing.

    kind    -- "source", "fuse", "circuit" ...; circuit, number -- of an element
    unnamed -- whether its name is only its place in a circuit, "<circuit>/<number>"
    ends    -- the points between which it lies, of a circuit
    """

    kind: str
    name: str
    fields: Mapping[str, Field]
    circuit: str = ""
    number: int = 0
    unnamed: bool = False
    ends: tuple[str, str] = ("", "")


def things_of(system: System) -> dict[str, Thing]:
    """Everything in the drawing, by name; places, conditions and waivers too."""
    found: dict[str, Thing] = {}
    for kind, group in (
        ("source", system.sources),
        ("busbar", system.busbars),
        ("equipment", system.equipment),
        ("converter", system.converters),
    ):
        for name, each in group.items():
            found[name] = Thing(kind, name, _fields(each))
    for name, circuit in system.circuits.items():
        ends = {"from": Field(circuit.start, circuit.start), "to": Field(circuit.end, circuit.end)}
        found[name] = Thing("circuit", name, ends, ends=(circuit.start, circuit.end))
    for element in system.elements():
        found[element.name] = _element(element)
    # Places, conditions and waivers may bear the name of a thing.
    marked: tuple[tuple[str, Mapping[str, Any]], ...] = (
        ("place", system.places),
        ("condition", system.conditions),
    )
    for kind, named in marked:
        for name, stands in named.items():
            found[f"{kind} {name}"] = Thing(kind, name, _fields(stands))
    for waiver in system.waivers:
        name = f"waiver {waiver.rule} {waiver.subject}"
        found[name] = Thing("waiver", f"{waiver.rule} of {waiver.subject}", _fields(waiver))
    return found


def _element(element: Element) -> Thing:
    unnamed = element.name == f"{element.circuit}/{element.number}"
    return Thing(
        element.kind, element.name, _fields(element), element.circuit, element.number, unnamed
    )


def _fields(thing: Any) -> dict[str, Field]:
    return dict(_stated(thing, getattr(thing, "written", {}), ""))


def _stated(thing: Any, written: Mapping[str, str], path: str) -> Iterator[tuple[str, Field]]:
    """Every field of a record that differs from its default, with its text."""
    for field in dataclasses.fields(thing):
        value = getattr(thing, field.name)
        if field.name in _PLACING or value is None or value == field.default or value == ():
            continue
        name = f"{path}{field.name}"
        if field.name == "part":
            yield name, Field(value.id, value.id)
        elif field.name == "place":
            yield name, Field(value.name, value.name)
        elif field.name == "return_path":
            if value.kind != "mirror":
                yield from _stated(value, value.written, "return.")
        elif dataclasses.is_dataclass(value):
            yield from _stated(value, _under(written, name), f"{name}.")
        elif isinstance(value, Mapping):
            for key, each in value.items():
                shown = written.get(f"{name}.{key}") or f"{each:.4g}"
                yield f"{name}.{key}", Field(each, shown)
        else:
            yield name, Field(value, written.get(field.name) or _text(field.name, value))


def _under(written: Mapping[str, str], name: str) -> dict[str, str]:
    start = f"{name}."
    return {key.removeprefix(start): text for key, text in written.items() if key.startswith(start)}


def _text(name: str, value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return ", ".join(map(str, value))
    if isinstance(value, float):
        return number(value, _UNITS.get(name, ""))
    return str(value)
