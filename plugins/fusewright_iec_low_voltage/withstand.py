"""How much fault energy a conductor bears, by the insulation's temperatures.

The published factors where the standard has them; for insulation above 90 °C its equation.
"""

from __future__ import annotations

from coordination.physics.adiabatic import adiabatic_limit, k_factor
from coordination.rules import Derived, Installation, Source, Unknown, Value, derive, given
from fusewright_iec_low_voltage import tables
from fusewright_iec_low_voltage.parts_of_standard import overcurrent

#: Final temperature [°C] of a thermoplastic and of a thermosetting insulation after a fault.
FINAL = {"thermoplastic": 160.0, "thermosetting": 250.0}
#: Above this area [m²] thermoplastic insulation has a lower factor.
LARGE = 300e-6
#: Above this rating [°C] no factor is published.
PUBLISHED = 90.0
_EQUATION = Source("IEC 60364-5-54:2011", "Annex A")


def withstand(leg: Installation, insulation: str) -> Value:
    """k² S² [A²s] of one conductor of a leg.

    Of parallel ones too: a fault on one of them, close to its end, takes all the current through
    a short piece of that one (434.4).
    """
    if isinstance(leg.area, Unknown):
        return Unknown("energy it withstands", leg.area.missing)
    area = Derived("conductor area", "S", leg.area.value, "m²", leg.area.symbol, (leg.area,))
    return derive(
        lambda k, s: adiabatic_limit(s, k), f"energy the {leg.leg} leg withstands", "J_z",
        "A²s", "k^2 × S^2", _factor(leg, area, insulation), area, source=overcurrent("434.5.2"),
    )  # fmt: skip


def _factor(leg: Installation, area: Derived, insulation: str) -> Value:
    limit = leg.insulation_temperature
    if isinstance(limit, Unknown):
        return Unknown("factor k", limit.missing)
    if limit.value > PUBLISHED:
        return _computed(limit, insulation)
    name = _name(limit.value, area.value, insulation)
    k = tables.k_factors()[name]
    return given(f"factor k of {name}", "k", k, "A·s^0.5/m²", overcurrent("Table 43A"))


def _name(limit: float, area: float, insulation: str) -> str:
    size = "above 300 mm2" if area > LARGE else "up to 300 mm2"
    if limit <= 70:
        return f"PVC 70 C, {size}"
    return "XLPE / EPR 90 C" if insulation == "thermosetting" else f"PVC 90 C, {size}"


def _computed(limit: Derived, insulation: str) -> Value:
    final = FINAL[insulation]
    if limit.value >= final:
        missing = f"a factor k for {insulation} insulation of {limit.value:g} °C"
        return Unknown("factor k", (missing,), (limit,))
    start = Derived("temperature when the fault begins", "T_i", limit.value, "°C", limit.symbol,
                    (limit,))  # fmt: skip
    end = given(f"final temperature, {insulation}", "T_f", final, "°C", overcurrent("Table 43A"))
    formula = "226 × sqrt(ln((234.5 + T_f) / (234.5 + T_i)))"
    return derive(k_factor, "factor k", "k", "A·s^0.5/m²", formula, start, end, source=_EQUATION)
