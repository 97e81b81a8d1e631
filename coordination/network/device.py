"""Resistance through a device, a switch or a joint, as its part or the file states it."""

from __future__ import annotations

from catalogue.parts import Breaker, Channel, Disconnect, Fuse
from coordination.model import Element
from coordination.network.stated import of_file, of_part
from coordination.trace import Derived, Source, Unknown, Value

NEGLECTED = Source("definition", "max bound: resistance of devices, switches and joints neglected")


def through(element: Element) -> tuple[float | None, float | None]:
    """Stated least and largest resistance [Ω] through a device, switch or joint."""
    if element.kind == "joint":
        return element.resistance_min, element.resistance_max
    part = element.part
    if isinstance(part, Fuse | Breaker | Disconnect | Channel) and part.resistance is not None:
        return part.resistance.min, part.resistance.max
    return None, None


def missing_resistance(element: Element) -> tuple[str, ...]:
    """What would have to be stated, as a phrase."""
    named = element.name if element.part is None else element.part.id
    return (f"{named}: resistance",)


def stated(element: Element, bound: str, quantity: str) -> Value:
    """The resistance [Ω] at a bound, "low" or "high"; in the low one what is not stated is 0."""
    value = through(element)[0 if bound == "low" else 1]
    if value is None and bound == "low":
        return Derived(quantity, "R", 0.0, "Ω", source=NEGLECTED)
    if value is None:
        return Unknown(quantity, missing_resistance(element))
    end = "min" if bound == "low" else "max"
    if element.part is None:
        return of_file(element, f"resistance.{end}", value, quantity, "R", "Ω")
    return of_part(element.part, f"resistance.{end}", value, quantity, "R", "Ω")
