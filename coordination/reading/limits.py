"""What each kind of quantity can be in a small low-voltage DC system; more is a slip of the pen.

Bounds of plausibility [SI, degC], not of safety: they catch kA for A and metres for millimetres.
"""

from __future__ import annotations

from typing import Final, NamedTuple

#: Stands for "more than 0": the smallest size that a quantity can have at all.
ABOVE_ZERO: Final = 1e-18


class Limits(NamedTuple):
    """Bounds, both included [SI unit, degC], and how to say them."""

    low: float
    high: float
    words: str

    def or_zero(self) -> Limits:
        """The same with zero allowed."""
        return Limits(0.0, self.high, self.words.replace("more than 0 and ", "0 or more and "))


def _up_to(high: float, words: str) -> Limits:
    return Limits(ABOVE_ZERO, high, f"more than 0 and at most {words}")


LIMITS: Final = {
    "current": _up_to(1e6, "1 MA"),
    "voltage": _up_to(1500.0, "1500 V, where low voltage ends for DC"),
    "resistance": _up_to(1e3, "1 kΩ"),
    "resistance_per_length": _up_to(10.0, "10 Ω/m"),
    "power": _up_to(1e7, "10 MW"),
    "charge": _up_to(3.6e9, "1,000,000 Ah"),
    "length": _up_to(1000.0, "1 km"),
    "area": _up_to(0.01, "10,000 mm²"),
    "temperature": Limits(-100.0, 1000.0, "-100 °C to 1000 °C"),
    "time": _up_to(1e6, "1,000,000 s"),
    "capacitance": _up_to(1000.0, "1000 F"),
    "frequency": _up_to(1000.0, "1 kHz"),
    "ratio": _up_to(1.0, "100 %"),
    "factor": _up_to(2.0, "2"),
    "let_through": _up_to(1e12, "10¹² A²s"),
}

#: The field of a part that wants other bounds than its dimension.
PART_LIMITS: Final = {
    "insulation_temperature": Limits(40.0, 400.0, "40 °C to 400 °C"),
    "terminal_limit": Limits(40.0, 400.0, "40 °C to 400 °C"),
    "factor": Limits(ABOVE_ZERO, 2.0, "more than 0 and at most 200 %"),
    "tolerance": _up_to(0.5, "50 %"),
    "capacity_tolerance": Limits(0.0, 0.5, "0 or more and at most 50 %"),
    "peukert_exponent": Limits(1.0, 2.0, "1 to 2"),
    "short_circuit_temperature": Limits(60.0, 400.0, "60 °C to 400 °C"),
}

AMBIENT: Final = Limits(-60.0, 120.0, "-60 °C to 120 °C")
