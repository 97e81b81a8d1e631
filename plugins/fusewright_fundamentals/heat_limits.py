"""What a cable's leg bears: its final temperature, its let-through limit, its overload."""

from __future__ import annotations

from typing import Any

from coordination.physics.adiabatic import (
    LARGE_AREA,
    adiabatic_limit,
    k_factor,
    lowest_final_temperature,
)
from coordination.rules import OutOfRange, Source, Unknown, Value, derive, given
from coordination.rules.kit.stated import renamed

_PVC = Source("IEC 60364-4-43:2008", "Table 43A, PVC: the lowest for this insulation", read=False)
_LARGE_PVC = Source("IEC 60364-4-43:2008", "Table 43A, PVC above 300 mm²", read=False)
_ICEA = Source("NFPA 70 (NEC) 2023", "Table 240.92(B), thermoplastic: the lowest for 105 °C")
_FACTOR = Source("IEC 60364-5-54:2011", "Annex A")
_LIMIT = Source("IEC 60364-4-43:2008", "434.5.2", read=False)


def final_temperature(leg: Any) -> Value:
    """Highest conductor temperature [°C] at the end of a short circuit.

    Stated by the part, or the lowest that is published for its insulation temperature.
    """
    quantity = "highest short-circuit temperature"
    stated = getattr(leg.part, "short_circuit_temperature", None)
    if stated is not None:
        source = Source("part data", f"{leg.part.id}: short_circuit_temperature")
        written = leg.part.written.get("short_circuit_temperature", "")
        return given(quantity, "T_f", stated, "°C", source, written)
    insulation, area = leg.insulation_temperature, leg.area
    if isinstance(insulation, Unknown) or isinstance(area, Unknown):
        missing = insulation if isinstance(insulation, Unknown) else area
        return Unknown(quantity, missing.missing)
    try:
        lowest = lowest_final_temperature(insulation.value, area.value)
    except OutOfRange:
        return Unknown(quantity, (f"{leg.part.id}: short_circuit_temperature",))
    source = _ICEA if insulation.value > 90.0 or insulation.value <= 65.0 else _PVC
    if area.value > LARGE_AREA:
        source = _LARGE_PVC
    return derive(
        lambda _: lowest, f"{quantity}, not stated: the lowest published", "T_f", "°C",
        "T_f for T_rated", renamed(insulation, "T_rated"), source=source,
    )  # fmt: skip


def initial_temperature(cable: Any, study: Any, leg: Any) -> Value:
    """Conductor temperature [°C] under load; if that is not known the insulation's."""
    loaded = study.conductor_temperature(cable, leg)
    return renamed(leg.insulation_temperature if isinstance(loaded, Unknown) else loaded, "T_i")


def energy_limit(leg: Any, initial: Value, final: Value) -> Value:
    """Largest let-through I²t [A²s] of one cable of the leg."""
    quantity = f"let-through that the {leg.name} leg withstands"
    if isinstance(initial, Unknown) or isinstance(final, Unknown):
        return derive(lambda *_: 0.0, quantity, "J_max", "A²s", "", initial, final)
    try:
        factor = derive(
            k_factor, "k factor", "k", "A·s^0.5/m²",
            "226 × sqrt(ln((234.5 + T_f) / (234.5 + T_i)))", initial, final, source=_FACTOR,
        )  # fmt: skip
        area = renamed(leg.area, "S")
        return derive(
            lambda s, k: adiabatic_limit(s, k), quantity, "J_max", "A²s", "k² S²", area, factor,
            source=_LIMIT,
        )  # fmt: skip
    except OutOfRange:
        # Under load it is as hot as it may ever get: it withstands nothing more.
        return derive(
            lambda *_: 0.0, quantity, "J_max", "A²s", "0 where T_i ≥ T_f",
            renamed(initial, "T_i"), renamed(final, "T_f"), source=_LIMIT,
        )  # fmt: skip
