"""Systems built by hand for these tests: short words for the model's records."""

from __future__ import annotations

from typing import Any

from catalogue.parts import (
    Band,
    Battery,
    Breaker,
    BusbarPart,
    Cable,
    Channel,
    Disconnect,
    Fuse,
    Part,
)
from coordination.model import (
    Busbar,
    Circuit,
    Condition,
    Converter,
    Element,
    Equipment,
    Place,
    Return,
    Source,
    System,
)

PLACE = Place(name="here", line=1, ambient=30.0, stated=True)


def battery(id: str, emf: Any, ohms: Any, **fields: Any) -> Battery:
    """emf and ohms: one figure for both bounds, or (min, max)."""
    charge = fields.pop("charge_voltage", _band(emf).max if emf is not None else None)
    return Battery(
        id=id,
        kind="battery",
        emf=None if emf is None else _band(emf),
        resistance=None if ohms is None else _band(ohms),
        charge_voltage=charge,
        **fields,
    )


def _band(value: Any) -> Band:
    return Band(*value) if isinstance(value, tuple) else Band(value, value)


def cable(id: str, per_metre: Any, temperature: float | None = 20.0, **fields: Any) -> Cable:
    """per_metre: Ω/m of one conductor, one figure or (min, max); at 20 °C unless told."""
    fields.setdefault("area", 50e-6)
    return Cable(
        id=id,
        kind="cable",
        resistance_20c=None if per_metre is None else _band(per_metre),
        insulation_temperature=temperature,
        **fields,
    )


def fuse(id: str = "fuse", ohms: Any = 0.0, **fields: Any) -> Fuse:
    return Fuse(id=id, kind="fuse", resistance=None if ohms is None else _band(ohms), **fields)


def breaker(id: str = "breaker", ohms: Any = 0.0, **fields: Any) -> Breaker:
    return Breaker(
        id=id, kind="breaker", resistance=None if ohms is None else _band(ohms), **fields
    )


def switch(id: str = "switch", ohms: Any = 0.0, **fields: Any) -> Disconnect:
    return Disconnect(
        id=id, kind="disconnect", resistance=None if ohms is None else _band(ohms), **fields
    )


def channel(id: str = "channel", **fields: Any) -> Channel:
    return Channel(id=id, kind="channel", **fields)


def joint(low: float, high: float | None = None) -> dict[str, Any]:
    return {"kind": "joint", "resistance_min": low, "resistance_max": low if high is None else high}


def run(part: Cable, length: float, **fields: Any) -> dict[str, Any]:
    """A length [m] of cable, there and back."""
    return {"part": part, "length": length, **fields}


class Builder:
    """Puts a system together; names become points."""

    def __init__(self, **fields: Any) -> None:
        self.fields = fields
        self.sources: dict[str, Source] = {}
        self.busbars: dict[str, Busbar] = {}
        self.equipment: dict[str, Equipment] = {}
        self.converters: dict[str, Converter] = {}
        self.circuits: dict[str, Circuit] = {}
        self.conditions: dict[str, Condition] = {"normal": Condition(name="normal", line=0)}

    def battery(self, name: str, part: Battery) -> Builder:
        self.sources[name] = Source(name=name, line=1, place=PLACE, part=part)
        return self

    def limited(self, name: str, amps: float | None, volts: float | None) -> Builder:
        self.sources[name] = Source(
            name=name, line=1, place=PLACE, current_limited=amps, voltage=volts
        )
        return self

    def bus(self, *names: str, order: tuple[str, ...] = ()) -> Builder:
        part = BusbarPart(id="bar", kind="busbar")
        for name in names:
            self.busbars[name] = Busbar(name=name, line=1, place=PLACE, part=part, order=order)
        return self

    def load(self, name: str, amps: float | None = None, **fields: Any) -> Builder:
        self.equipment[name] = Equipment(name=name, line=1, place=PLACE, current=amps, **fields)
        return self

    def converter(self, name: str, **fields: Any) -> Builder:
        self.converters[name] = Converter(name=name, line=1, place=PLACE, **fields)
        return self

    def circuit(self, name: str, start: str, end: str, *parts: Any) -> Builder:
        elements = []
        for number, item in enumerate(parts, 1):
            fields = dict(item) if isinstance(item, dict) else {"part": item}
            fields.setdefault("kind", fields["part"].kind if "part" in fields else None)
            elements.append(
                Element(
                    name=fields.pop("name", f"{name}/{number}"),
                    line=number,
                    circuit=name,
                    number=number,
                    place=PLACE,
                    start=start if number == 1 else f"{name}@{number - 1}",
                    end=end if number == len(parts) else f"{name}@{number}",
                    **fields,
                )
            )
        self.circuits[name] = Circuit(
            name=name, line=1, start=start, end=end, elements=tuple(elements)
        )
        return self

    def condition(self, name: str, **fields: Any) -> Builder:
        self.conditions[name] = Condition(name=name, line=1, **fields)
        return self

    def system(self) -> System:
        return System(
            name="test",
            line=1,
            file="test.yaml",
            packs=(),
            ampacity_basis=None,
            places={},
            sources=self.sources,
            busbars=self.busbars,
            equipment=self.equipment,
            converters=self.converters,
            circuits=self.circuits,
            conditions=self.conditions,
            waivers=(),
            nominal_voltage=self.fields.get("nominal_voltage"),
        )


__all__ = [
    "Builder",
    "Part",
    "Return",
    "battery",
    "breaker",
    "cable",
    "channel",
    "fuse",
    "joint",
    "run",
    "switch",
]
