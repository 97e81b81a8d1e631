"""A cable's conductors one by one: what each may carry, and how warm it gets."""

from __future__ import annotations

from typing import TYPE_CHECKING

from catalogue.parts import Cable
from coordination.ampacity import Installation
from coordination.model import Element
from coordination.network import Loops, Way, ways
from coordination.network.loop import return_path
from coordination.network.stated import of_part
from coordination.physics.sources import LOAD_TEMPERATURE
from coordination.physics.temperature import load_temperature
from coordination.study.deferred import renamed
from coordination.study.kinds import Leg
from coordination.trace import Derived, Source, Unknown, Value, reckon

if TYPE_CHECKING:
    from coordination.study.study import Study


def of(loops: Loops, element: Element) -> tuple[Leg, ...]:
    """The legs of a cable; none for any other element."""
    if element.kind != "cable":
        return ()
    found = [_cable_leg(loops, element, way) for way in ways(element)]
    if len(found) == 1:
        found.append(_other_path(element))
    return tuple(found)


def _cable_leg(loops: Loops, element: Element, way: Way) -> Leg:
    length: Value = Unknown("length", (f"{element.name}: length",))
    if way.length is not None:
        length = Derived(
            f"length of the {way.name} leg, one way",
            "length",
            way.length,
            "m",
            source=Source("system file", f"{element.name}: length, line {element.line}"),
        )
    return Leg(
        way.name,
        way.part,
        loops.conductors.area(way.part),
        length,
        way.runs,
        loops.leg(element, way, "high"),
        loops.conductors.insulation(way.part),
    )


def _other_path(element: Element) -> Leg:
    """A way back that is no cable of the file: a chassis, or not stated."""

    def missing(quantity: str) -> Unknown:
        return Unknown(quantity, (f"{element.name}: {quantity} of the return path",))

    return Leg(
        "return",
        None,
        missing("area"),
        missing("length"),
        1,
        return_path(element, "R"),
        missing("insulation temperature"),
    )


def ampacity(study: Study, element: Element, leg: Leg, nominal: float | None) -> Value:
    """Continuous current [A] of one leg as installed; nothing of it depends on the condition but
    the nominal voltage [V] of its piece of the system.
    """
    quantity = f"ampacity of the {leg.name} leg of {element.name}"
    if study.basis is None:
        return Unknown(quantity, ("an ampacity basis: no pack brings one",))
    if not isinstance(leg.part, Cable):
        return Unknown(quantity, (f"{element.name}: what the return path may carry",))
    part = leg.part
    return study.basis.ampacity(
        Installation(
            leg=leg.name,
            area=leg.area,
            insulation_temperature=leg.insulation_temperature,
            resistance_20c_max=study.network.loops.conductors.limit(part),
            outside_diameter=of_part(
                part,
                "outside_diameter",
                part.outside_diameter,
                "diameter over the insulation",
                "D",
                "m",
            ),
            ambient=study.ambient(element),
            engine_space=element.place.engine_space,
            bundle=element.bundle,
            runs=leg.runs,
            sheathed=element.sheathed,
            nominal_voltage=nominal,
        )
    )


def temperature(study: Study, element: Element, leg: Leg) -> Value:
    """Temperature [°C] of one leg's conductor under its design current."""
    quantity = f"temperature of the {leg.name} leg of {element.name}"
    inputs = (
        _named(study.ambient(element), "T_a"),
        _named(leg.insulation_temperature, "T_rated"),
        _named(study.load(element), "I"),
        _named(study.ampacity(element, leg), "I_z"),
    )
    formula = "T_a + (T_rated − T_a) × (I / I_z)²"
    return reckon(_warmed, quantity, "T", "°C", formula, *inputs, source=LOAD_TEMPERATURE)


def _warmed(ambient: float, rated: float, current: float, limit: float) -> float:
    return load_temperature(current, limit, ambient, rated, ambient)


def _named(value: Value, symbol: str) -> Value:
    return renamed(value, symbol) if isinstance(value, Derived) else value
