"""The published tables of this pack, read once from csv when first needed.

Rows only: which row applies is the business of `ampacity`, `withstand` and the rules. Rows that
the standard does not have stay in the files, marked, and are not used.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from coordination.rules.kit.tables import rows_of

_FOLDER = Path(__file__).parent / "tables"
#: The first arrangement of Table B.52.17: circuits bunched, whatever they lie in or on.
BUNCHED = "1 bunched"


@dataclass(frozen=True, slots=True)
class Conventional:
    """Operating current over rated current [1] of a family, for ratings in a range [A]."""

    family: str
    above: float
    up_to: float
    factor: float
    read: bool
    document: str


@cache
def ampacity(method: str, limit: int) -> tuple[tuple[float, float], ...]:
    """(area [m²], current [A]) of two loaded conductors in 30 °C air, smallest first."""
    return tuple(
        (float(row["area"]) * 1e-6, float(row["ampacity"]))
        for row in _rows("ampacity_annex_b")
        if row["method"] == method
        and int(row["limit"]) == limit
        and row["loaded"] == "2"
        and row["in_standard"] == "yes"
    )


@cache
def ambient(limit: int) -> tuple[tuple[float, float], ...]:
    """Table B.52.14: (air temperature [°C], factor) for one conductor limit [°C], coolest first."""
    return tuple(
        (float(row["ambient"]), float(row["factor"]))
        for row in _rows("ambient_air_b_52_14")
        if int(row["limit"]) == limit
    )


@cache
def bunched() -> tuple[tuple[int, float], ...]:
    """Table B.52.17, first row: (circuits, factor), fewest first."""
    return tuple(
        (int(row["circuits"]), float(row["factor"]))
        for row in _rows("grouping_b_52_17")
        if row["arrangement"].startswith(BUNCHED)
    )


@cache
def conventional() -> tuple[Conventional, ...]:
    """Conventional operating currents by family of device."""
    return tuple(
        Conventional(
            row["family"],
            float(row["above"]),
            float(row["up_to"]),
            float(row["factor"]),
            row["read"] == "yes",
            row["source"],
        )
        for row in _rows("conventional_currents")
    )


@cache
def k_factors() -> dict[str, float]:
    """Table 43A: factor k [A·s^0.5/m²] of copper by insulation, as the table words it."""
    return {row["insulation"]: float(row["k"]) * 1e6 for row in _rows("k_factors_43a")}


def _rows(name: str) -> list[dict[str, str]]:
    return rows_of(_FOLDER, name)
