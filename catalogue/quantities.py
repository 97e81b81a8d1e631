"""Reads and shows quantities: a number with a unit in, an SI float out, and back.

A table serves the usual units; whatever is not in it goes to pint by way of `unusual_units`,
which also explains what is wrong with a text. Both cost time and are imported only then.
"""

from __future__ import annotations

import re
from math import pi
from typing import Final, NamedTuple

from catalogue.showing import scaled, significant
from catalogue.units import FAHRENHEIT, INCH, SI_UNITS, UNITS

__all__ = ["Quantity", "QuantityError", "awg_area", "parse", "quantity", "show", "unit_of"]

#: Largest and smallest size [SI] that anything here can have; squares and ratios of it stay finite.
LARGEST: Final = 1e18
SMALLEST: Final = 1e-18
ABSOLUTE_ZERO: Final = -273.15

#: A number, and what follows it.
NUMBER: Final = re.compile(
    r"([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*)", re.ASCII | re.DOTALL
)
_FRACTION: Final = re.compile(r"(?:(\d{1,6})[ -])?(\d{1,6})/(\d{1,6}) ?(in|ft)", re.ASCII)
#: "00" is no gauge here: it would be 2/0, and a reader of 0 takes it for 1/0.
_GAUGE: Final = re.compile(r"(?:([1-4])/0|(0|[1-9]\d?)) ?AWG", re.ASCII)
_TIDY: Final = str.maketrans({"\u2212": "-", "\u00a0": " ", "\u202f": " ", "\u2009": " "})


class Quantity(NamedTuple):
    """A value [SI unit of its dimension; degC], its dimension, and how it was written."""

    value: float
    dimension: str
    text: str


class QuantityError(ValueError):
    """A text that is no quantity of the dimension due: what is wrong, and a hint (may be empty)."""

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(f"{message}; {hint}" if hint else message)
        self.message = message
        self.hint = hint


def parse(text: str, dimension: str) -> float:
    """The value of `text` in the SI unit of `dimension` (a key of `units.SI_UNITS`; degC).

    Raises QuantityError: no number, no unit, unknown unit, another dimension, out of range.
    """
    tidy = text.translate(_TIDY).strip(" \t")
    match = NUMBER.fullmatch(tidy)
    if match is not None:
        known = UNITS.get(match[2])
        if known is not None and known[0] == dimension:
            number = float(match[1])
            if match[2] in FAHRENHEIT:
                number -= 32.0
            return _in_range(number * known[1], dimension, text)
    return _in_range(_less_usual(tidy, dimension, match), dimension, text)


def quantity(text: str, dimension: str) -> Quantity:
    """`parse` with the dimension and the text kept beside the value. Raises QuantityError."""
    return Quantity(parse(text, dimension), dimension, text)


def _less_usual(tidy: str, dimension: str, match: re.Match[str] | None) -> float:
    """Gauges, fractions, per cent for factors; then pint, or the explanation of what is wrong."""
    gauge = _GAUGE.fullmatch(tidy)
    if gauge is not None and dimension == "area":
        return awg_area(tidy[:-3].strip())
    fraction = _FRACTION.fullmatch(tidy)
    if fraction is not None and dimension == "length" and int(fraction[3]) != 0:
        number = int(fraction[1] or 0) + int(fraction[2]) / int(fraction[3])
        return number * UNITS[fraction[4]][1]
    if dimension == "factor" and match is not None and match[2] in ("", "%"):
        return float(match[1]) * (0.01 if match[2] else 1.0)
    from catalogue.unusual_units import parse_unusual

    return parse_unusual(tidy, dimension)


def _in_range(value: float, dimension: str, text: str) -> float:
    """The value, if anything can be that large or that small; a negative zero becomes zero."""
    if value == 0.0:
        return 0.0
    if dimension == "temperature" and abs(value) <= LARGEST:
        if value < ABSOLUTE_ZERO:
            raise QuantityError(f"{text[:40]!r} is below absolute zero")
        return value
    if not SMALLEST <= abs(value) <= LARGEST:
        size = "small" if abs(value) < SMALLEST else "large"
        raise QuantityError(f"{text[:40]!r} is too {size} to be a {dimension.replace('_', ' ')}")
    return value


#: Share by which the stated area of a cable may differ from its gauge's nominal one. A stranding is
#: not its gauge's area: strands times their section, class K lies -1.0 % (18 AWG) to +2.3 % (8 AWG)
#: from it, class I -2.0 % (2 AWG) to +3.8 % (2/0 AWG). ASTM B172, B174, from memory.
GAUGE_TOLERANCE: Final = 0.04


def awg_area(size: str) -> float:
    """Nominal copper area [m²] of an American wire gauge size, "4/0" to "40".

    d = 0.005 in × 92^((36 − n)/39), area = π d²/4, with n = 0, −1, −2, −3 for 1/0 to 4/0.
    Raises QuantityError for any other size.
    Source: ASTM B258 (from memory, not read here); agrees with published tables to 0.1 %.
    """
    match = _GAUGE.fullmatch(size.strip() + " AWG")
    if match is None or (match[2] is not None and int(match[2]) > 40):
        raise QuantityError(f"{size[:20]!r} is no wire gauge", "write 4/0, 1/0, 1, 2 ... 40")
    number = 1 - int(match[1]) if match[1] else int(match[2])
    diameter: float = 0.005 * INCH * 92.0 ** ((36 - number) / 39)
    return pi / 4 * diameter * diameter


def unit_of(text: str) -> str:
    """The unit of a quantity as it was written: "mm" of "120 mm", "in" of "3/8 in"; else empty."""
    tidy = text.translate(_TIDY).strip(" \t")
    match = _FRACTION.fullmatch(tidy)
    if match is not None:
        return match[4]
    match = NUMBER.fullmatch(tidy)
    return match[2] if match is not None and match[2] in UNITS else ""


def show(value: float, unit: str, written: str = "", digits: int = 3) -> str:
    """`value` [`unit`, an SI symbol] for people: "12.1 kA", "2.70 mΩ", "120 mm", "1.32 ×10⁶ A²s".

    With `written` it is shown in the unit written there, and as it stands there if it is that
    value. A unit without prefixes here ("1/K") is shown as it is. `digits` are significant ones.
    """
    dimension = UNITS.get(unit_of(written), ("", 1.0))[0] if written else ""
    if dimension and SI_UNITS[dimension] == unit:
        own = unit_of(written)
        if parse(written, dimension) == value:
            return written.strip()
        number = value / UNITS[own][1] + (32.0 if own in FAHRENHEIT else 0.0)
        if 0.01 <= abs(number) < 10_000:
            return f"{significant(number, digits)} {own}"
    return scaled(value, unit, digits)
