"""The published tables of this pack, read once from csv when first needed.

Rows only: which row applies is the business of `table_a1` and the rules.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from coordination.rules.kit.tables import by_insulation, rows_of

_FOLDER = Path(__file__).parent / "tables"


@dataclass(frozen=True, slots=True)
class Size:
    """One row of Table A.1: area [m²], and current [A] by insulation rating [°C]."""

    area: float
    amps: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Range:
    """Voltages [V] at the battery over which equipment of a nominal voltage [V] must work."""

    nominal: float
    lowest: float
    highest: float


@cache
def ampacity() -> tuple[Size, ...]:
    """ISO 10133:2012 Table A.1, smallest size first; from memory."""
    return tuple(
        Size(
            float(row["area_mm2"]) * 1e-6,
            by_insulation(row),
        )
        for row in _rows("ampacity")
    )


@cache
def engine_space() -> dict[float, float | None]:
    """Factor [1] in engine spaces by insulation column [°C]; None: not permitted. From memory."""
    return {
        float(row["insulation_C"]): float(row["factor"]) if row["factor"] else None
        for row in _rows("engine_space")
    }


@cache
def bundling() -> tuple[tuple[float, float], ...]:
    """Largest number of conductors together, and their factor [1]; from memory."""
    return tuple(
        (float(row["conductors_max"] or "inf"), float(row["factor"])) for row in _rows("bundling")
    )


@cache
def voltage_ranges() -> tuple[Range, ...]:
    """By nominal voltage; from memory."""
    return tuple(
        Range(float(row["nominal_V"]), float(row["lowest_V"]), float(row["highest_V"]))
        for row in _rows("voltage_range")
    )


def _rows(name: str) -> list[dict[str, str]]:
    return rows_of(_FOLDER, name)
