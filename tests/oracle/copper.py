"""The oracle's own copper law: DESIGN's conventions, worked out again.

Class limits are IEC 60228's for the sizes that systems are generated with, written down from
memory, as 20 °C maxima in Ω/km.
"""

from __future__ import annotations

from math import log, pi, sqrt
from typing import Any

_CLASS_2 = {1.5: 12.1, 2.5: 7.41, 4: 4.61, 6: 3.08, 10: 1.83, 16: 1.15, 25: 0.727, 35: 0.524,
            50: 0.387, 70: 0.268, 95: 0.193, 120: 0.153}  # fmt: skip
_CLASS_5 = {1.5: 13.3, 2.5: 7.98, 4: 4.95, 6: 3.30, 10: 1.91, 16: 1.21, 25: 0.780, 35: 0.554,
            50: 0.386, 70: 0.272, 95: 0.206, 120: 0.161}  # fmt: skip
_CLASS_5_TINNED = {1.5: 13.7, 2.5: 8.21, 4: 5.09, 6: 3.39, 10: 1.95, 16: 1.24, 25: 0.795,
                   35: 0.565, 50: 0.393, 70: 0.277, 95: 0.210, 120: 0.164}  # fmt: skip
_LIMITS = {"class 2": _CLASS_2, "class 5": _CLASS_5, "class 5 tinned": _CLASS_5_TINNED}

Part = dict[str, Any]


def cold(part: Part) -> float | None:
    """Least resistance per length [Ω/m], 20 °C."""
    if part.get("resistance_20c"):
        return float(part["resistance_20c"][0])
    return 0.017241e-6 / part["area"] if part.get("area") else None


def limit(part: Part) -> float | None:
    """Largest resistance per length [Ω/m] at 20 °C."""
    if part.get("resistance_20c"):
        return float(part["resistance_20c"][1])
    if not part.get("area"):
        return None
    row = _LIMITS.get(part.get("stranding") or "", {})
    for size, ohms in row.items():
        if abs(size * 1e-6 - part["area"]) < 1e-9:
            return ohms / 1000.0
    return 1.04 * 0.017241e-6 / float(part["area"])


def hot(part: Part) -> float | None:
    """Largest resistance per length [Ω/m] at the insulation's temperature."""
    most, heat = limit(part), part.get("insulation_temperature")
    if most is None or heat is None:
        return None
    return most * (234.5 + float(heat)) / 254.5


def strands(area: float) -> float:
    """Diameter over the strands [m]."""
    return 1.13 * sqrt(4.0 * area / pi)


def walled(area: float) -> float:
    """Diameter over the insulation [m] where none is stated."""
    square = area * 1e6
    bounds = ((6, 0.8), (25, 1.0), (50, 1.2), (100, 1.4))
    wall = next((wall for below, wall in bounds if square < below - 1e-6), 1.6)
    return strands(area) + 2e-3 * wall


def inductance(one: float, other: float, spacing: float | None) -> float:
    """Of a pair [H/m]: (0.4 ln(d / r) + 0.1) µH/m, touching unless spaced."""
    radius = sqrt(strands(one) * strands(other)) / 2.0
    apart = (walled(one) + walled(other)) / 2.0 if spacing is None else spacing
    return (0.4 * log(apart / radius) + 0.1) * 1e-6
