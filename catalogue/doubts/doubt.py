"""One doubt, and how its numbers are shown."""

from __future__ import annotations

from typing import NamedTuple

from catalogue.quantities import show


class Doubt(NamedTuple):
    """What is hard to believe: the field, what it says, what was expected, and by whom."""

    part: str
    path: str
    found: str
    expected: str
    source: str

    def __str__(self) -> str:
        return f"{self.part}: {self.path}: {self.found}; expected {self.expected} ({self.source})"


def amps(value: float) -> str:
    return show(value, "A")


def volts(value: float) -> str:
    return show(value, "V")


def ohms(value: float) -> str:
    return show(value, "Ω")


def seconds(value: float) -> str:
    return show(value, "s")


def square(value: float) -> str:
    return show(value, "m²")
