"""Compares a figure with one that somebody wrote down, within half its last digit."""

from __future__ import annotations

import re

from catalogue.quantities import QuantityError, parse, show
from coordination.rules.finding import Finding
from coordination.testing.case import CaseError
from coordination.trace import Unknown, Value

_DIMENSIONS = {
    "A": "current",
    "V": "voltage",
    "Ω": "resistance",
    "Ω/m": "resistance_per_length",
    "W": "power",
    "m": "length",
    "m²": "area",
    "s": "time",
    "°C": "temperature",
    "A²s": "let_through",
    "": "ratio",
}
_NUMBER = re.compile(r"\s*[-+]?\d+(?:\.(\d*))?(?:[eE]([-+]?\d+))?\s*(.*)", re.DOTALL)


def differs(value: Value | float | None, written: str) -> str:
    """In what the value differs from the written figure; empty if it does not.

    Raises CaseError for a figure that cannot be read.
    """
    if value is None or isinstance(value, Unknown):
        return f"is unknown, expected {written}"
    number, unit = (value, "") if isinstance(value, float) else (value.value, value.unit)
    wanted, tolerance = _read(written, unit)
    if abs(number - wanted) <= tolerance * (1 + 1e-6):
        return ""
    return f"{show(number, unit, digits=6)}, expected {written} (± {show(tolerance, unit)})"


def in_words(finding: Finding) -> str:
    """A finding in one line, for the message of a failed case."""
    parts: list[str] = [finding.verdict]
    for name in ("found", "required"):
        value = getattr(finding, name)
        if value is not None and not isinstance(value, Unknown):
            parts.append(f"{name} {show(value.value, value.unit, digits=5)}")
    parts += [f"missing {phrase!r}" for phrase in finding.missing]
    parts += [f"({finding.reason})"] if finding.reason else []
    return ", ".join(parts)


def _read(written: str, unit: str) -> tuple[float, float]:
    match = _NUMBER.fullmatch(written)
    if match is None or unit not in _DIMENSIONS:
        raise CaseError(f"cannot compare {written!r} with a figure in {unit or 'no unit'}")
    decimals, exponent, symbol = match.groups()
    half = 0.5 * 10.0 ** (int(exponent or 0) - len(decimals or ""))
    try:
        value = parse(written, _DIMENSIONS[unit]) if symbol.strip() or unit else float(written)
        step = (
            half if unit == "°C" or not symbol.strip() else _step(half, symbol, _DIMENSIONS[unit])
        )
    except QuantityError as error:
        raise CaseError(f"{written!r}: {error}") from error
    return value, step


def _step(half: float, symbol: str, dimension: str) -> float:
    return parse(f"1 {symbol}", dimension) * half
