"""The slow way: units that only pint knows, and what to tell about a text that is no quantity.

Imported when the table of `units` has no answer. The one unit registry is made here, on first use.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Final

from catalogue.units import ALIKE, CALLED, SI_UNITS, UNITS, WANTED

if TYPE_CHECKING:
    import pint

_COMMA: Final = re.compile(r"[+-]?\d+,\d+")
_NO_NUMBER: Final = re.compile(r"[+-]?\.?(nan|inf|infinity)\b", re.IGNORECASE)
_POWER: Final = r"[^\W\d_]+(?:[²³]|(?:\^|\*\*)-?\d|\d)?"
#: Names joined by / * · or a space, each with an exponent of one digit: no expressions reach pint.
_UNIT: Final = re.compile(rf"{_POWER}(?:\s*[/*· ]\s*{_POWER}){{0,3}}")
_PREFIXED: Final = re.compile(r"[kMGmµ]A")
_GAUGE: Final = re.compile(r"(?:\d+/\d+|\d+)\s*awg", re.IGNORECASE)
_AMERICAN: Final = re.compile(r"(?:awg|#)\s*(\d/0|\d{1,2})|(\d/0)", re.IGNORECASE)
_FEET_AND_INCHES: Final = re.compile(
    r"(\d+)\s*(?:ft|feet|')\s*(\d+(?:\.\d+)?)\s*(?:in|inch|inches|\"|'')?", re.IGNORECASE
)
#: What people write that no unit is called here: lower-case word to unit.
_WORDS: Final = {
    "amp": "A", "amps": "A", "ampere": "A", "amperes": "A", "kamp": "kA", "kamps": "kA",
    "volt": "V", "volts": "V", "watt": "W", "watts": "W", "kilowatt": "kW", "kilowatts": "kW",
    "ohm": "Ω", "ohms": "Ω", "mohm": "mΩ", "mohms": "mΩ", "milliohm": "mΩ", "milliohms": "mΩ",
    "'": "ft", "\"": "in", "''": "in", "zoll": "in", "fuss": "ft",
    "mtr": "m", "mtrs": "m", "meter": "m", "meters": "m", "metre": "m", "metres": "m",
    "sqmm": "mm²", "qmm": "mm²", "mmq": "mm²", "sqmm.": "mm²", "mcm": "kcmil",
    "deg c": "°C", "degc": "°C", "deg.c": "°C", "celsius": "°C", "°": "°C", "deg": "°C",
    "deg f": "°F", "degf": "°F", "fahrenheit": "°F", "percent": "%", "per cent": "%", "pct": "%",
    "sec": "s", "secs": "s", "hr": "h", "hrs": "h",
}
#: Temperature is absent: an offset unit and a difference are too easily taken for each other.
_PINT: Final = {
    "current": "A", "voltage": "V", "resistance": "ohm", "resistance_per_length": "ohm/m",
    "power": "W", "charge": "A*s", "energy": "J", "length": "m", "area": "m**2", "time": "s",
    "inductance": "H", "capacitance": "F", "mass": "kg", "let_through": "A**2*s",
}


@cache
def registry() -> pint.UnitRegistry[float]:
    """The one registry of units, made on first use."""
    import pint

    return pint.UnitRegistry()


def pint_spelling(unit: str) -> str:
    """How pint writes a unit of the trade: "A**2*s" for "A²s"."""
    unit = unit.translate(ALIKE).replace("²", "**2").replace("³", "**3").replace("·", "*")
    unit = re.sub(r"(?<=[A-Za-z])([23])(?!\d)", r"**\1", unit)
    unit = re.sub(r"(?<=\d)(?=[A-Za-z])", "*", unit)
    return {"%": "percent", "°C": "degC", "°F": "degF"}.get(unit, unit)


def parse_unusual(text: str, dimension: str) -> float:
    """The value of `text` by pint [SI unit of `dimension`]. Raises QuantityError, explaining."""
    from catalogue.quantities import NUMBER, QuantityError

    match = NUMBER.fullmatch(text)
    if match is None or not match[2]:
        raise QuantityError(*_no_quantity(text, dimension, bare=match is not None))
    number, unit = match[1], match[2]
    if dimension == "let_through" and _PREFIXED.match(unit):
        raise QuantityError(*_ambiguous(text, number, unit))
    if unit in UNITS or dimension not in _PINT or len(unit) > 40 or not _UNIT.fullmatch(unit):
        raise QuantityError(*_wrong_unit(text, number, unit, dimension))
    factor = _factor(unit, _PINT[dimension])
    if factor is None:
        raise QuantityError(*_wrong_unit(text, number, unit, dimension))
    return float(number) * factor


def _ambiguous(text: str, number: str, unit: str) -> tuple[str, str]:
    """A prefix is squared with its unit, kA²s = 10⁶ A²s; many sheets mean 10³ A²s all the same."""
    hint = "write it in A²s"
    if unit[0] == "k":
        hint = f"write {number}e3 A²s or {number}e6 A²s, as the curve shows"
    return f"{text[:40]!r} is read in two ways: some square the prefix of {unit}, some do not", hint


@lru_cache(maxsize=256)
def _factor(unit: str, si: str) -> float | None:
    """What one `unit` is in `si` by pint; None if it is no unit of that dimension."""
    try:
        return float(registry().Quantity(1.0, pint_spelling(unit)).to(si).magnitude)
    # pint raises its own errors, and those of the tokenizer and of what it calls, without one base.
    except Exception:
        return None


def _no_quantity(text: str, dimension: str, *, bare: bool) -> tuple[str, str]:
    """Message and hint for a text that has no number, or nothing but a number."""
    wanted = f"write {WANTED[dimension]}"
    if bare:
        return f"{_short(text)} has no unit: {_named(dimension)} wants {WANTED[dimension]}", ""
    if _NO_NUMBER.match(text):
        return f"{_short(text)} is not a number that a quantity can have", wanted
    gauge = _AMERICAN.fullmatch(text)
    if gauge is not None and dimension == "area":
        return f"{_short(text)} is no area", f"write {gauge[1] or gauge[2]} AWG"
    if re.match(r"[+-]?\s*\d+\s*/", text):
        return _no_fraction(text, dimension)
    return f"{_short(text)} is no {_named(dimension)}: it must begin with a number", wanted


def _no_fraction(text: str, dimension: str) -> tuple[str, str]:
    return f"{_short(text)} is no {_named(dimension)}", "fractions are for inches and feet: 3/8 in"


def _wrong_unit(text: str, number: str, unit: str, dimension: str) -> tuple[str, str]:
    """Message and hint for a number followed by something that is no unit of the dimension."""
    wants = f"{_named(dimension)} wants {WANTED[dimension]}"
    if _COMMA.match(text):
        point = text.replace(",", ".", 1)
        whole = re.sub(r",(?=\d{3}\b)", "", text)
        hint = f"write {_short(point)}" + (f" or {_short(whole)}" if whole != text else "")
        return f"{_short(text)} has a decimal comma; decimals take a point", hint
    if _GAUGE.fullmatch(text):
        return _wrong_gauge(text, dimension, wants)
    if unit.startswith("/"):
        gauge = _AMERICAN.fullmatch(text)
        if gauge is not None and dimension == "area":
            return f"{_short(text)} is no area", f"write {text} AWG"
        return _no_fraction(text, dimension)
    both = _FEET_AND_INCHES.fullmatch(text)
    if both is not None and dimension == "length":
        inches = 12 * int(both[1]) + float(both[2])
        return f"{_short(text)} is two numbers: {wants}", f"one is written {inches:g} in"
    if unit[0].isdigit():
        return f"{_short(text)} is two numbers: {wants}", f"one is written {_short(number + unit)}"
    if dimension == "temperature" and unit in ("K", "C", "F"):
        celsius = f"{float(number) - 273.15:g} °C"
        return f"{wants}, not {unit}", f"write {celsius if unit == 'K' else f'{number} °{unit}'}"
    near = _near_miss(number, unit, dimension)
    # "5 ka" is far likelier a slip of the shift key than five thousand years.
    known = UNITS.get(unit) or UNITS.get(_WORDS.get(unit.lower()[:40], ""))
    guessed = "" if near else _dimension_by_pint(unit)
    other = known[0] if known and known[0] != dimension else guessed
    if other:
        return f"{wants}, not {CALLED[other]} ({_short(text)})", ""
    return f"{_short(unit)} is no unit known here: {wants}", near


def _wrong_gauge(text: str, dimension: str, wants: str) -> tuple[str, str]:
    """Message and hint for what looks like a wire gauge."""
    if dimension != "area":
        return f"{wants}, not a wire gauge ({_short(text)})", ""
    if text[-3:] != "AWG":
        return f"{_short(text[-3:])} is no unit known here", f"did you mean {text[:-3]}AWG?"
    zeros = re.match(r"0+", text)
    own = f"{len(zeros[0])}/0" if zeros and len(zeros[0]) in range(2, 5) else "4/0"
    return f"{_short(text)} is no wire gauge", f"write {own} AWG, 1/0 AWG, 1 AWG ... 40 AWG"


def _dimension_by_pint(unit: str) -> str:
    """The dimension of a unit that the table lacks; empty if there is none."""
    if len(unit) > 40 or not _UNIT.fullmatch(unit):
        return ""
    return next((name for name, si in _PINT.items() if _factor(unit, si) is not None), "")


def _near_miss(number: str, unit: str, dimension: str) -> str:
    """"did you mean ...", from the units of the dimension due."""
    from rapidfuzz import process
    from rapidfuzz.distance import DamerauLevenshtein

    own = {name.lower(): name for name, (of, _) in UNITS.items() if of == dimension}
    plain = unit.translate(ALIKE).lower()[:40]
    word = _WORDS.get(unit.lower()[:40])
    if word is not None and UNITS[word][0] == dimension:
        return f"did you mean {number} {word}?"
    if plain in own:
        return f"did you mean {number} {own[plain]}?"
    if len(plain) < 3:
        return ""
    found = process.extractOne(
        plain, list(own), scorer=DamerauLevenshtein.distance, score_cutoff=1
    )
    return f"did you mean {number} {own[found[0]]}?" if found else ""


def _named(dimension: str) -> str:
    return dimension.replace("_", " ")


def _short(text: str) -> str:
    """The text in quotes, made printable and no longer than a line can bear."""
    return ascii(text)[1:-1].join("''") if not text.isprintable() else f"'{text[:40]}'"


assert set(WANTED) == set(CALLED) == set(SI_UNITS)
