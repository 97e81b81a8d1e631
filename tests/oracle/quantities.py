"""Numbers with units, read by the oracle's own small table; SI, temperatures in °C."""

from __future__ import annotations

from math import pi

_UNITS = {
    "A": 1.0, "kA": 1e3, "mA": 1e-3, "V": 1.0, "mV": 1e-3, "Ω": 1.0, "mΩ": 1e-3, "µΩ": 1e-6,
    "Ω/km": 1e-3, "mΩ/m": 1e-3, "Ω/m": 1.0, "m": 1.0, "mm": 1e-3, "ft": 0.3048, "in": 0.0254,
    "mm²": 1e-6, "°C": 1.0, "s": 1.0, "ms": 1e-3, "%": 0.01, "W": 1.0, "kW": 1e3, "A²s": 1.0,
    "Ah": 3600.0, "mF": 1e-3,
}  # fmt: skip


def si(text: str) -> float:
    """The SI value of "3.2 mΩ". Raises KeyError for a unit that generated systems do not use."""
    number, unit = text.split()
    return float(number) * _UNITS[unit]


def band(stated: object) -> tuple[float, float] | None:
    """Least and largest of a band, or of one figure."""
    if stated is None:
        return None
    if isinstance(stated, dict):
        return si(stated["min"]), si(stated["max"])
    return si(str(stated)), si(str(stated))


def gauge_area(size: str) -> float:
    """Area [m²] of a gauge: 0.005 in at 36 AWG, 0.46 in at 4/0, 39 equal ratios (ASTM B258)."""
    number = 1 - int(size[0]) if size.endswith("/0") else int(size)
    ratio = (0.46 / 0.005) ** (1.0 / 39.0)
    inches = 0.46 / ratio ** (number + 3)
    return pi / 4.0 * (inches * 0.0254) ** 2
