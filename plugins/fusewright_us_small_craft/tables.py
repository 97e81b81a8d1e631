"""The published tables of this pack, read once from csv when first needed.

Rows only: which row applies is the business of `table5`, `device_limit` and the rules.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from coordination.rules.kit.tables import by_insulation, rows_of

_FOLDER = Path(__file__).parent / "tables"


@dataclass(frozen=True, slots=True)
class Size:
    """One row of Table 5: nominal area [m²], and current [A] by insulation rating [°C]."""

    awg: str
    area: float
    amps: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Factor:
    """A factor [1], from which value of its key on; `read` tells whether the row was read."""

    least: float
    most: float
    factor: float
    read: bool


@dataclass(frozen=True, slots=True)
class Band:
    """Interrupting capacity [A] that a bank's cold-cranking amps [A] ask for at a voltage [V]."""

    volts: tuple[float, float]
    cranking: tuple[float, float]
    main: float
    branch: float
    read: bool


@cache
def table5() -> tuple[Size, ...]:
    """33 CFR 183.425 Table 5, smallest size first."""
    return tuple(
        Size(
            row["awg"],
            float(row["area_mm2"]) * 1e-6,
            by_insulation(row),
        )
        for row in _rows("table5")
    )


@cache
def engine_space() -> tuple[Factor, ...]:
    """Note 1 to Table 5, by insulation rating [°C]; published figures, not a formula's."""
    return tuple(
        Factor(float(row["insulation_C"]), float(row["insulation_C"]), *_factor(row))
        for row in _rows("engine_space")
    )


@cache
def bundling() -> tuple[Factor, ...]:
    """Note 2 to Table 5, by number of current-carrying conductors."""
    return tuple(
        Factor(float(row["conductors_min"]), float(row["conductors_max"] or "inf"), *_factor(row))
        for row in _rows("bundling")
    )


@cache
def standard_ratings() -> tuple[float, ...]:
    """Standard ratings of devices [A], rising; from memory."""
    return tuple(float(row["rating_A"]) for row in _rows("standard_ratings"))


@cache
def interrupting() -> tuple[Band, ...]:
    """E-11 Table V-A."""
    return tuple(
        Band(
            (float(row["volts_min"]), float(row["volts_max"])),
            (float(row["cca_min_A"]), float(row["cca_max_A"] or "inf")),
            float(row["main_A"]),
            float(row["branch_A"]),
            row["read"] == "yes",
        )
        for row in _rows("interrupting")
    )


def _factor(row: dict[str, str]) -> tuple[float, bool]:
    return float(row["factor"]), row["read"] == "yes"


def _rows(name: str) -> list[dict[str, str]]:
    return rows_of(_FOLDER, name)
