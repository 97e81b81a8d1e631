"""Scales an SI value to the prefix that people read: 12100 A is 12.1 kA. Knows no parsing."""

from __future__ import annotations

from math import floor, isfinite, isnan, log10
from typing import Final

_MICRO_TO_KILO: Final = (("µ", 1e-6), ("m", 1e-3), ("", 1.0), ("k", 1e3))

#: SI unit -> (text, size in that unit), rising: what the trade uses, not what SI allows.
_STEPS: Final[dict[str, tuple[tuple[str, float], ...]]] = {
    **{
        unit: tuple((prefix + unit, size) for prefix, size in _MICRO_TO_KILO)
        for unit in ("A", "V", "W", "Ω")
    },
    "J": (("J", 1.0), ("kJ", 1e3), ("Wh", 3.6e4), ("kWh", 3.6e6)),
    "m": (("µm", 1e-6), ("mm", 1e-3), ("m", 1.0), ("km", 1e3)),
    # A square millimetre serves up to a square decimetre; nobody says cm² of copper.
    "m²": (("mm²", 1e-6), ("m²", 1e-2)),
    "Ω/m": (("µΩ/m", 1e-6), ("mΩ/m", 1e-3), ("Ω/m", 1.0)),
    # Not kA²s: by rule that is 10⁶ A²s, and many sheets mean 10³ by it.
    "A²s": (("A²s", 1.0), ("×10³ A²s", 1e3), ("×10⁶ A²s", 1e6), ("×10⁹ A²s", 1e9)),
    "s": (("µs", 1e-6), ("ms", 1e-3), ("s", 1.0), ("min", 1e3), ("h", 7.2e3)),
    "H": (("nH", 1e-9), ("µH", 1e-6), ("mH", 1e-3), ("H", 1.0)),
    "F": (("pF", 1e-12), ("nF", 1e-9), ("µF", 1e-6), ("mF", 1e-3), ("F", 1.0)),
    "kg": (("g", 1e-3), ("kg", 1.0)),
    "A·s": (("mAh", 3.6), ("Ah", 3600.0)),
}
_SIZES: Final = {"m²": 1.0, "min": 60.0, "h": 3600.0, "Wh": 3600.0}


def significant(value: float, digits: int = 3) -> str:
    """`value` with that many significant digits, never in powers of ten below a million."""
    if value == 0.0:
        return "0"
    exponent = floor(log10(abs(float(f"{value:.{digits - 1}e}"))))
    if not -4 <= exponent < 6:
        return f"{value:.{digits - 1}e}"
    return f"{value:.{max(0, digits - 1 - exponent)}f}"


def scaled(value: float, unit: str, digits: int = 3) -> str:
    """`value` [`unit`] with the largest prefix that leaves a number of at least one."""
    if not isfinite(value):
        return "undefined" if isnan(value) else ("-" if value < 0 else "") + "unlimited"
    if unit == "°C":
        return f"{_trimmed(value)} °C"
    steps = _STEPS.get(unit)
    if steps is None or value == 0.0:
        return f"{significant(value, digits)} {unit}".rstrip()
    rounded = abs(float(f"{value:.{digits - 1}e}"))
    name, size = steps[0]
    for step, threshold in steps:
        if rounded >= threshold * (1 - 1e-9):
            name, size = step, _SIZES.get(step, threshold)
    return f"{significant(value / size, digits)} {name}"


def _trimmed(value: float) -> str:
    """A temperature: one decimal where it has one."""
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text
