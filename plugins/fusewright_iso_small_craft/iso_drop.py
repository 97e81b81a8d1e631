"""Voltage lost by the standard's own formula, E = 0.0164 × I × L / S, over a cable's two legs.

Its 0.0164 Ω·mm²/m lies below copper at 20 °C (0.01724): it shows less than what is truly lost.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from coordination.rules import DEFINITION, Derived, Source, Unknown, Value, derive, given
from coordination.rules.kit.joined import nothing
from coordination.rules.kit.zone import zone

#: The formula's constant [Ω·m].
CONSTANT = 0.0164e-6

ANNEX_C = Source(
    "ISO 10133:2012", "Annex C; its 0.0164 Ω·mm²/m lies below copper at 20 °C, 0.01724", read=False
)
_FILE = Source("system file")


def iso_drop(current: float, length: float, area: float) -> float:
    """Voltage [V] lost by current [A] in a conductor of length [m], both ways, and area [m²]."""
    return CONSTANT * current * length / area


def drop_to(equipment: Any, study: Any) -> Value:
    """The formula summed over the cables on the shortest way from the nearest source.

    Currents are those of the physical sum: everything draws, batteries alone give. Unknown where
    a way back is no cable.
    """
    quantity = "voltage lost by the standard's formula"
    parts = [*_parts(equipment, study)]
    if not parts:
        return Unknown(quantity, (f"{equipment.name}: a cable on its way",))
    if len(parts) == 1:
        return parts[0] if isinstance(parts[0], Unknown) else replace(parts[0], symbol="E")
    named = [
        part if isinstance(part, Unknown) else replace(part, symbol=f"E_{n}")
        for n, part in enumerate(parts, 1)
    ]
    formula = " + ".join(f"E_{n}" for n in range(1, len(parts) + 1))
    return derive(lambda *each: sum(each), quantity, "E", "V", formula, *named, source=ANNEX_C)


def _parts(equipment: Any, study: Any) -> Iterator[Value]:
    around = zone(equipment.name, study, nothing)
    outputs = {f"{name}.output" for name in study.system.converters}
    batteries = [source.name for source in around.batteries(study)]
    limited = [name for name in around.lengths if name in study.system.sources or name in outputs]
    ends = batteries or limited
    nearest = min(ends, key=lambda name: around.lengths[name], default=equipment.name)
    for element in around.elements_to(nearest):
        if element.kind == "cable":
            current = _current(element, study)
            for leg in study.legs(element):
                yield _of_leg(element, leg, current)


def _of_leg(cable: Any, leg: Any, current: Value) -> Value:
    runs = given("equal cables in parallel", "n", leg.runs, "", _FILE)
    constant = derive(lambda: CONSTANT, "constant of the formula", "k", "Ω·m", "0.0164 Ω·mm²/m")
    return derive(
        lambda _k, i, length, n, s: iso_drop(i, length, n * s),
        f"{leg.name} leg of {cable.name} by the standard's formula",
        "E", "V", "k × I × L / (n × S)",
        constant, current, _as(leg.length, "L"), runs, _as(leg.area, "S"), source=ANNEX_C,
    )  # fmt: skip


def _current(cable: Any, study: Any) -> Value:
    """Current [A] with everything drawing and batteries alone: what the cable loses, over R."""
    ends = (study.load_voltage(cable.start), study.load_voltage(cable.end))
    legs = [leg.resistance_high for leg in study.legs(cable)]
    return derive(
        lambda a, b, *r: abs(a - b) / sum(r) if sum(r) else 0.0,
        f"current in {cable.name}",
        "I", "A", "|V_1 − V_2| / (R_1 + R_2)" if len(legs) == 2 else "|V_1 − V_2| / R_1",
        _as(ends[0], "V_1"), _as(ends[1], "V_2"),
        *(_as(leg, f"R_{n}") for n, leg in enumerate(legs, 1)), source=DEFINITION,
    )  # fmt: skip


def _as(value: Value, symbol: str) -> Value:
    return replace(value, symbol=symbol) if isinstance(value, Derived) else value
