"""The published tables of this pack, read once from csv when first needed.

Rows only: which row applies is the business of `ampacity`, `standard_ratings` and the rules.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import inf
from pathlib import Path

from coordination.physics.adiabatic import CIRCULAR_MIL
from coordination.physics.conductors import awg_area, awg_number
from coordination.rules.kit.tables import rows_of

_FOLDER = Path(__file__).parent / "tables"


@dataclass(frozen=True, slots=True)
class Size:
    """One row of a table of conductors.

    name -- "14", "4/0" (AWG) or "250" (kcmil); area -- [m²]
    amps -- current [A] by temperature column [°C]
    """

    name: str
    area: float
    amps: tuple[tuple[int, float], ...]

    @property
    def words(self) -> str:
        """The size with its unit."""
        return f"{self.name} {'kcmil' if _is_kcmil(self.name) else 'AWG'}"


@dataclass(frozen=True, slots=True)
class Range:
    """A figure for everything from `low` to `high`, both included."""

    low: float
    high: float
    figure: float


@dataclass(frozen=True, slots=True)
class Limit:
    """The largest device [A] for a size; `read` tells whether that row was read."""

    size: Size
    device: float
    read: bool


@cache
def raceway() -> tuple[Size, ...]:
    """Table 310.16: not more than three current-carrying conductors in raceway, cable or earth."""
    return _sizes("raceway_copper_310_16")


@cache
def free_air() -> tuple[Size, ...]:
    """Table 310.17: single insulated conductors in free air."""
    return _sizes("free_air_copper_310_17")


@cache
def ambient(column: int) -> tuple[Range, ...]:
    """Table 310.15(B)(1)(1): factor by ambient [°C], for one temperature column; coolest first."""
    return tuple(
        Range(float(row["from"] or -inf), float(row["to"]), float(row["factor"]))
        for row in _rows("ambient_factors_310_15_B_1")
        if row["table"] == "310.15(B)(1)(1)" and int(row["column"]) == column
    )


@cache
def adjustment() -> tuple[Range, ...]:
    """Table 310.15(C)(1): share left [1] by number of current-carrying conductors."""
    return tuple(
        Range(float(row["from"]), float(row["to"] or inf), float(row["percent"]) / 100)
        for row in _rows("adjustment_310_15_C_1")
    )


@cache
def standard_ratings() -> tuple[float, ...]:
    """240.6(A): standard ratings of fuses and breakers [A], rising; from memory."""
    return tuple(float(row["rating"]) for row in _rows("standard_ratings_240_6_A"))


@cache
def small_conductors() -> tuple[Limit, ...]:
    """240.4(D): largest device by size of copper conductor, smallest first."""
    return _limits("small_conductors_240_4_D")


@cache
def vehicle_overcurrent() -> tuple[Limit, ...]:
    """Table 551.10(E)(1): largest device by size of copper conductor, smallest first."""
    return _limits("vehicle_overcurrent_551_10_E_1")


def _sizes(name: str) -> tuple[Size, ...]:
    columns = ("column_60", "column_75", "column_90")
    return tuple(
        Size(
            row["size"],
            _area(row["size"]),
            tuple((int(each[-2:]), float(row[each])) for each in columns if row[each]),
        )
        for row in _rows(name)
    )


def _limits(name: str) -> tuple[Limit, ...]:
    return tuple(
        Limit(Size(row["size"], _area(row["size"]), ()), float(row["device"]), row["read"] == "yes")
        for row in _rows(name)
    )


def _is_kcmil(name: str) -> bool:
    return name.isdigit() and int(name) >= 250


def _area(name: str) -> float:
    if _is_kcmil(name):
        return int(name) * 1000 * CIRCULAR_MIL
    return awg_area(awg_number(name))


def _rows(name: str) -> list[dict[str, str]]:
    return rows_of(_FOLDER, name)
