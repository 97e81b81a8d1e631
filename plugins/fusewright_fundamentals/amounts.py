"""Currents and lengths in a reason's few words; values with their units are the report's."""

from __future__ import annotations


def amps(current: float) -> str:
    """A current [A] in A or kA, three digits.

    >>> amps(13667.7), amps(90.0)
    ('13.7 kA', '90 A')
    """
    if current >= 1000.0:
        return f"{_digits(current / 1000.0)} kA"
    return f"{_digits(current)} A"


def metres(length: float) -> str:
    """A length [m], three digits.

    >>> metres(0.5)
    '0.5 m'
    """
    return f"{_digits(length)} m"


def _digits(value: float) -> str:
    """Three digits, and as many more as stand before the point."""
    return f"{value:.3g}" if abs(value) < 1000.0 else f"{value:.0f}"
