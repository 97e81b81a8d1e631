"""What a cable carries and bears, from DESIGN and the rule cards: the judge's own equations."""

from __future__ import annotations

from math import exp, log, pi, sqrt

from tests.oracle import copper
from tests.oracle.copper import Part

#: K² of copper [A²s/m⁴]: heat capacity × (234.5 + 20) / resistivity.
_CONSTANT = 3.45e6 * 254.5 / 0.017241e-6


def ampacity(part: Part, ambient: float, bundle: int, runs: int, sheathed: bool) -> float | None:
    """Continuous current [A] of a leg touching its like in still air (IEC 60287); None: unknown."""
    area, limit, ohms = part.get("area"), part.get("insulation_temperature"), copper.hot(part)
    if area is None or limit is None or ohms is None:
        return None
    inner = copper.strands(area)
    outer = part.get("outside_diameter", inner)
    if outer < inner:
        return None
    low, high = 0.0, 1e5
    for _ in range(100):
        heat = (low + high) / 2.0
        film = 0.29 / sqrt(outer) + 2.35
        rise = heat * 5.0 / (2.0 * pi) * log(outer / inner) + (heat / (pi * outer * film)) ** 0.8
        low, high = (heat, high) if rise < limit - ambient else (low, heat)
    pairs = bundle * runs
    factor = pairs ** (-1 / 3) if pairs <= 20 else 20 ** (-1 / 3) * sqrt(20 / pairs)
    single = sqrt(low / ohms) if limit > ambient else 0.0
    return float(single * factor * runs * (0.75 if sheathed else 1.0))


def hottest(part: Part) -> float | None:
    """Highest temperature [°C] after a short circuit, or the lowest published for this kind."""
    if part.get("short_circuit_temperature") is not None:
        return float(part["short_circuit_temperature"])
    limit = part.get("insulation_temperature")
    if limit is None:
        return None
    return next((end for upto, end in ((65, 150.0), (90, 160.0), (105, 150.0)) if limit <= upto),
                None)  # fmt: skip


def bears(area: float, before: float, after: float) -> float | None:
    """I²t [A²s] that brings copper from one temperature to another; None where it is there."""
    if after <= before:
        return None
    return _CONSTANT * log((234.5 + after) / (234.5 + before)) * area**2


def warmed(area: float, before: float, energy: float) -> float:
    """Temperature [°C] after an I²t, no heat lost."""
    exponent = energy / (_CONSTANT * area**2)
    return 1e9 if exponent > 3.0 else (234.5 + before) * exp(exponent) - 234.5


def overloaded(
    part: Part, ambient: float, limit: float, current: float, before: float, seconds: float
) -> float:
    """Temperature [°C] a time after a lasting current began in one cable of a limit [A]."""
    area, rated = float(part["area"]), float(part["insulation_temperature"])
    steady = ambient + (rated - ambient) * (current / limit) ** 2
    resistivity = 0.017241e-6 * (234.5 + rated) / 254.5
    tau = 3.45e6 * area**2 * (rated - ambient) / (resistivity * limit**2)
    return steady - (steady - before) * exp(-min(seconds / tau, 700.0))
