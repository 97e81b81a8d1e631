"""The things rules are asked about, and what can be read off the drawing alone."""

from __future__ import annotations

from typing import Any

from coordination.model import DEFAULT_AMBIENT, PROTECTIVE, Element, Named, Place, System
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
        "busbar": system.busbars, "source": system.sources, "equipment": system.equipment,
        "converter": system.converters,
    }
    if kind not in groups:
        raise ValueError(f"no subject kind {kind!r}")
    return tuple(groups[kind].values())


def ambient(subject: Named) -> Derived:
    """Air temperature [°C] where a subject stands; the customary one where the file is silent."""
    place: Place | None = getattr(subject, "place", None)
    if place is None or not place.stated:
        value = DEFAULT_AMBIENT if place is None else place.ambient
        return Derived("ambient temperature, not stated", "T_a", value, "°C", source=COMMON_PRACTICE)
    return Derived(f"ambient temperature of {place.name}", "T_a", place.ambient, "°C",
                   source=Source("system file", f"line {place.line}"),
                   written=place.written.get("ambient", ""))


def neighbours(system: System, element: Element) -> tuple[Element, ...]:
    """Cables that end on an element's own terminals; a busbar between keeps them apart."""
    ends = {element.start, element.end} - set(system.busbars)
    return tuple(
        other for other in system.elements()
        if other.kind == "cable" and other.name != element.name and ends & {other.start, other.end}
    )
