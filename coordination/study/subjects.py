"""The things rules are asked about, and what can be read off the drawing alone."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from coordination.model import DEFAULT_AMBIENT, PROTECTIVE, Element, Place, System
from coordination.named import Named
from coordination.trace import COMMON_PRACTICE, Derived, Source

_ELEMENTS = ("fuse", "breaker", "disconnect", "channel", "cable", "joint")


def of_kind(system: System, kind: str) -> tuple[Any, ...]:
    """Model objects of one kind, in the file's order. Raises ValueError for an unknown kind."""
    if kind == "element":
        return system.elements()
    if kind == "device":
        return tuple(element for element in system.elements() if element.kind in PROTECTIVE)
    if kind in _ELEMENTS:
        return tuple(element for element in system.elements() if element.kind == kind)
    groups = {
        "busbar": system.busbars,
        "source": system.sources,
        "equipment": system.equipment,
        "converter": system.converters,
        "inlet": system.shore,
    }
    if kind not in groups:
        raise ValueError(f"no subject kind {kind!r}")
    return tuple(groups[kind].values())


def ambient(subject: Named) -> Derived:
    """Air temperature [°C] where a subject stands; the customary one where the file is silent."""
    place: Place | None = getattr(subject, "place", None)
    if place is None or not place.stated:
        value = DEFAULT_AMBIENT if place is None else place.ambient
        return Derived(
            "ambient temperature, not stated", "T_a", value, "°C", source=COMMON_PRACTICE
        )
    return Derived(
        f"ambient temperature of {place.name}",
        "T_a",
        place.ambient,
        "°C",
        source=Source("system file", f"{place.name}: ambient, line {place.line}"),
        written=place.written.get("ambient", ""),
    )


class Drawing:
    """What is joined to what on the drawing, whatever is open or closed."""

    def __init__(self, system: System) -> None:
        self._system = system
        self._cables: dict[str, list[Element]] = {}
        for element in system.elements():
            if element.kind == "cable":
                for end in (element.start, element.end):
                    if end not in system.busbars:
                        self._cables.setdefault(end, []).append(element)
        circuits = system.circuits.values()
        self._joined = {end for circuit in circuits for end in (circuit.start, circuit.end)}

    def neighbours(self, element: Element) -> tuple[Element, ...]:
        """Cables that end on an element's own terminals; a busbar between keeps them apart."""
        found = [*self._cables.get(element.start, ()), *self._cables.get(element.end, ())]
        return tuple({e.name: e for e in found if e.name != element.name}.values())

    def same_current(self, element: Element) -> tuple[Element, ...]:
        """The other elements of a circuit with no other circuit joined between."""
        chain = self._system.circuits[element.circuit].elements
        at = element.number - 1
        found: list[Element] = []
        for run, side in ((chain[at::-1], "start"), (chain[at:], "end")):
            for here, beyond in pairwise(run):
                if getattr(here, side) in self._joined:
                    break
                found.append(beyond)
        return tuple(found)
