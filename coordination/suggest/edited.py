"""Changes made to a system in memory: the model as it would be read from the changed file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any, NamedTuple

from coordination.model import Circuit, Element, Place, Return, System
from coordination.suggest.change import Change, Changes


class Edited(NamedTuple):
    """A changed system.

    names -- name of an element now to its name before, where its number has moved
    added -- names of elements that were not there before
    """

    system: System
    names: Mapping[str, str]
    added: frozenset[str]


def edited(system: System, changes: Changes, places: Mapping[str, Place]) -> Edited:
    """The system with all of the changes made.

    places -- circuit to the place that its elements have which state none
    """
    by_circuit: dict[str, list[Change]] = {}
    busbars = dict(system.busbars)
    circuit_of = {element.name: element.circuit for element in system.elements()}
    for change in changes:
        if change.subject in busbars and change.sort == "part":
            part: Any = change.part
            busbars[change.subject] = replace(busbars[change.subject], part=part)
        else:
            home = change.subject if change.sort == "device" else circuit_of[change.subject]
            by_circuit.setdefault(home, []).append(change)
    circuits = dict(system.circuits)
    names: dict[str, str] = {}
    for name, of_circuit in by_circuit.items():
        default = places.get(name)
        circuits[name] = _circuit(system, circuits[name], of_circuit, default, names)
    changed = replace(
        system, busbars=MappingProxyType(busbars), circuits=MappingProxyType(circuits)
    )
    added = frozenset(change.name for change in changes if change.sort == "device")
    return Edited(changed, names, added)


def _circuit(
    system: System,
    circuit: Circuit,
    changes: list[Change],
    default: Place | None,
    names: dict[str, str],
) -> Circuit:
    own: dict[str, list[Change]] = {}
    for change in changes:
        own.setdefault(change.subject, []).append(change)
    moved = {change.subject: change.index for change in changes if change.sort == "moved"}
    order: list[Element] = []
    for index in range(len(circuit.elements) + 1):
        order += [
            _added(system, circuit, change, default)
            for change in sorted(changes, key=lambda each: each.name)
            if change.sort == "device" and change.index == index
        ]
        order += [each for each in circuit.elements if moved.get(each.name) == index]
        order += [e for e in circuit.elements[index : index + 1] if e.name not in moved]
    elements = (_changed(each, own.get(each.name, ())) for each in order)
    return replace(circuit, elements=tuple(_numbered(circuit, elements, len(order), names)))


def _numbered(
    circuit: Circuit, elements: Iterable[Element], last: int, names: dict[str, str]
) -> Iterable[Element]:
    """The elements in their new order, each with its number, name and ends."""
    start = circuit.start
    for number, element in enumerate(elements, 1):
        end = circuit.end if number == last else f"{circuit.name}@{number}"
        name = element.name
        if name == f"{circuit.name}/{element.number}":
            name = f"{circuit.name}/{number}"
            if name != element.name:
                names[name] = element.name
        yield replace(element, name=name, number=number, start=start, end=end)
        start = end


def _added(system: System, circuit: Circuit, change: Change, default: Place | None) -> Element:
    neighbour = circuit.elements[min(change.index, len(circuit.elements) - 1)]
    place = system.places[change.place] if change.place else default or neighbour.place
    assert change.part is not None
    return Element(
        name=change.name,
        line=neighbour.line,
        written=MappingProxyType({"distance": change.text} if change.text else {}),
        kind=change.part.kind,
        circuit=circuit.name,
        number=0,
        start="",
        end="",
        place=place,
        part=change.part,
        distance=change.value if change.text else None,
    )


def _changed(element: Element, changes: Iterable[Change]) -> Element:
    for change in changes:
        element = _MAKE[change.sort](element, change)
    return element


def _other_part(element: Element, change: Change) -> Element:
    assert change.part is not None
    if change.part.kind == element.kind:
        return replace(element, part=change.part)
    return replace(element, part=change.part, kind=change.part.kind, plus_towards=None)


def _other_cable(element: Element, change: Change) -> Element:
    back = element.return_path
    if back.kind == "cable":
        back = replace(back, part=change.part)
    return replace(element, part=change.part, return_path=back)


def _equal_return(element: Element, change: Change) -> Element:
    back = element.return_path
    if back.kind == "cable":
        back = replace(back, part=change.part, runs=element.runs)
    else:
        back = Return(
            kind="cable", part=change.part, length=element.length, runs=element.runs, line=back.line
        )
    return replace(element, return_path=back)


def _other_length(element: Element, change: Change) -> Element:
    stated = MappingProxyType({**element.written, "length": change.text})
    return replace(element, written=stated, length=change.value)


def _other_distance(element: Element, change: Change) -> Element:
    stated = MappingProxyType({**element.written, "distance": change.text})
    return replace(element, written=stated, distance=change.value)


def _as_it_is(element: Element, _: Change) -> Element:
    return element


_MAKE = {
    "part": _other_part,
    "cable": _other_cable,
    "return": _equal_return,
    "length": _other_length,
    "distance": _other_distance,
    "moved": _as_it_is,
}
