"""A cable's leg as a table of ampacity is asked for it, made by hand."""

from __future__ import annotations

from typing import Any

from coordination.rules import Installation, Source, Unknown, Value, given

_FILE = Source("system file")


def a_leg(
    area: float | None, insulation: float = 105.0, ambient: float = 30.0, /, **changes: Any
) -> Installation:
    """A positive leg of one cable by itself, in free air outside an engine space, at 12 V.

    area    -- cross-section [m²]; None: not stated
    insulation, ambient -- temperatures [°C]
    changes -- fields of the installation, in place of these
    """
    stated: Value = Unknown("area", ("area",))
    if area is not None:
        stated = given("area", "S", area, "m²", _FILE)
    fields: dict[str, Any] = {
        "leg": "positive",
        "area": stated,
        "insulation_temperature": given("insulation rating", "T", insulation, "°C", _FILE),
        "resistance_20c_max": Unknown("resistance", ("not stated",)),
        "outside_diameter": Unknown("diameter", ("not stated",)),
        "ambient": given("ambient", "T_a", ambient, "°C", _FILE),
        "engine_space": False,
        "bundle": 1,
        "runs": 1,
        "sheathed": None,
        "nominal_voltage": 12.0,
    }
    return Installation(**(fields | changes))
