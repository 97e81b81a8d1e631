"""The units of the trade: how each is spelt, what it measures and what it is in SI.

Only data; a test holds every factor against pint. `quantities` does the reading and showing.
"""

from __future__ import annotations

from math import pi
from typing import Final

#: Dimension -> SI unit that values of it are kept in (temperatures stay in degC).
SI_UNITS: Final = {
    "current": "A",
    "voltage": "V",
    "resistance": "Ω",
    "resistance_per_length": "Ω/m",
    "power": "W",
    "charge": "A·s",
    "energy": "J",
    "length": "m",
    "area": "m²",
    "temperature": "°C",
    "time": "s",
    "inductance": "H",
    "capacitance": "F",
    "frequency": "Hz",
    "mass": "kg",
    "ratio": "",
    "factor": "",
    "let_through": "A²s",
}

#: Dimension -> what to write, for messages.
WANTED: Final = {
    "current": "amperes (300 A, 12.1 kA, 250 mA)",
    "voltage": "volts (28.8 V)",
    "resistance": "ohms (3.2 mΩ, 120 µΩ, 0.1 ohm)",
    "resistance_per_length": "ohms per length (0.164 Ω/km, 0.16 mΩ/m, 0.049 ohm/kft)",
    "power": "watts (3000 W, 3 kW)",
    "charge": "ampere-hours (230 Ah)",
    "energy": "watt-hours or joules (5.9 kWh)",
    "length": "metres, inches or feet (0.6 m, 120 mm, 3/8 in, 7 ft)",
    "area": "square millimetres or a wire gauge (70 mm², 4/0 AWG, 250 kcmil)",
    "temperature": "degrees Celsius or Fahrenheit (35 °C, 95 °F)",
    "time": "seconds, minutes or hours (5 ms, 2 s, 1 h)",
    "inductance": "henries (15 µH)",
    "capacitance": "farads (20 mF)",
    "frequency": "hertz (50 Hz, 60 Hz)",
    "mass": "kilograms, grams or pounds (24 kg)",
    "ratio": "per cent (90 %)",
    "factor": "a factor or per cent (0.91 or 91 %)",
    "let_through": "ampere squared seconds (12000 A²s, 1.2e6 A²s)",
}

#: Dimension -> what its units are called, for "..., not volts".
CALLED: Final = {
    "current": "amperes",
    "voltage": "volts",
    "resistance": "ohms",
    "resistance_per_length": "ohms per length",
    "power": "watts",
    "charge": "ampere-hours",
    "energy": "watt-hours",
    "length": "a length",
    "area": "an area",
    "temperature": "degrees",
    "time": "a time",
    "inductance": "henries",
    "capacitance": "farads",
    "frequency": "hertz",
    "mass": "a mass",
    "ratio": "per cent",
    "factor": "a factor",
    "let_through": "ampere squared seconds",
}

INCH: Final = 0.0254
FOOT: Final = 0.3048
CIRCULAR_MIL: Final = pi / 4 * (INCH / 1000) ** 2

_BY_DIMENSION: Final[dict[str, dict[str, float]]] = {
    "current": {"A": 1.0, "kA": 1e3, "mA": 1e-3, "μA": 1e-6},
    "voltage": {"V": 1.0, "mV": 1e-3, "kV": 1e3},
    "resistance": {
        "Ω": 1.0, "mΩ": 1e-3, "μΩ": 1e-6, "kΩ": 1e3,
        "ohm": 1.0, "mohm": 1e-3, "μohm": 1e-6,
    },
    "resistance_per_length": {
        "Ω/m": 1.0, "mΩ/m": 1e-3, "μΩ/m": 1e-6, "Ω/km": 1e-3, "mΩ/km": 1e-6,
        "ohm/m": 1.0, "ohm/km": 1e-3, "mohm/m": 1e-3,
        "Ω/ft": 1 / FOOT, "mΩ/ft": 1e-3 / FOOT, "ohm/ft": 1 / FOOT, "mohm/ft": 1e-3 / FOOT,
        "ohm/kft": 1 / (1000 * FOOT), "Ω/kft": 1 / (1000 * FOOT),
    },
    "power": {"W": 1.0, "kW": 1e3, "mW": 1e-3},
    "charge": {"Ah": 3600.0, "mAh": 3.6, "kAh": 3.6e6, "A·s": 1.0},
    "energy": {"J": 1.0, "kJ": 1e3, "Wh": 3600.0, "kWh": 3.6e6},
    "length": {
        "m": 1.0, "mm": 1e-3, "cm": 1e-2, "km": 1e3, "in": INCH, "ft": FOOT, "yd": 3 * FOOT,
    },
    "area": {
        "mm²": 1e-6, "mm2": 1e-6, "cm²": 1e-4, "cm2": 1e-4, "m²": 1.0, "m2": 1.0,
        "kcmil": 1000 * CIRCULAR_MIL, "MCM": 1000 * CIRCULAR_MIL, "cmil": CIRCULAR_MIL,
    },
    "temperature": {"°C": 1.0, "degC": 1.0, "°F": 5 / 9, "degF": 5 / 9},
    "time": {"s": 1.0, "ms": 1e-3, "μs": 1e-6, "min": 60.0, "h": 3600.0},
    "inductance": {"H": 1.0, "mH": 1e-3, "μH": 1e-6, "nH": 1e-9},
    "capacitance": {"F": 1.0, "mF": 1e-3, "μF": 1e-6, "nF": 1e-9},
    "frequency": {"Hz": 1.0},
    "mass": {"kg": 1.0, "g": 1e-3, "lb": 0.45359237},
    "ratio": {"%": 1e-2},
    "let_through": {"A²s": 1.0, "A2s": 1.0},
}

#: Signs that look alike and mean the same: micro sign and mu, ohm sign and omega, degree signs.
ALIKE: Final = str.maketrans(
    {"\u00b5": "\u03bc", "\u2126": "\u03a9", "\u2103": "°C", "\u2109": "°F"}
)


def _spellings(unit: str) -> tuple[str, ...]:
    """The unit as kept here, and with the other signs that keyboards give for µ and Ω."""
    micro = (unit, unit.replace("μ", "\u00b5"), unit.replace("μ", "u"))
    return (*micro, *(text.replace("Ω", "\u2126") for text in micro))


#: Unit as written -> (dimension, factor to SI). For °F the factor is applied after taking 32 off.
UNITS: Final[dict[str, tuple[str, float]]] = {
    spelling: (dimension, factor)
    for dimension, units in _BY_DIMENSION.items()
    for unit, factor in units.items()
    for spelling in _spellings(unit)
}

FAHRENHEIT: Final = frozenset({"°F", "degF"})
