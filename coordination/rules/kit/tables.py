"""Published tables as a pack keeps them, csv files in its folder `tables`, and how rows are chosen.

Between two columns of insulation the cooler counts, between two sizes the smaller.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Mapping
from pathlib import Path

from coordination.rules import Derived, Source, Unknown, Value, derive
from coordination.rules.kit.stated import renamed


def rows_of(folder: Path, name: str) -> list[dict[str, str]]:
    """The rows of a table by the heads of its columns. Raises OSError if there is no such file."""
    with (folder / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def by_insulation(row: Mapping[str, str]) -> tuple[tuple[float, float], ...]:
    """(insulation rating [°C], current [A]) from columns headed `amps_60C`, `amps_75C`, …"""
    return tuple(
        (float(name[5:-1]), float(amps)) for name, amps in row.items() if name.startswith("amps_")
    )


def column_up_to(limit: Value, columns: Iterable[int]) -> int | None:
    """The hottest column [°C] not above the insulation's rating; None: none, or not known."""
    if isinstance(limit, Unknown):
        return None
    return max((each for each in columns if each <= limit.value), default=None)


def insulation_column(
    temperature: Value, columns: Iterable[float], table: str, source: Source
) -> Derived | Unknown:
    """The same as a value [°C], for a derivation; Unknown below the coolest column.

    columns -- the insulation ratings [°C] of the table, rising; table -- what it is called
    """
    if isinstance(temperature, Unknown):
        return Unknown(f"current in {table}", temperature.missing)
    ratings = list(columns)
    fitting = [rating for rating in ratings if rating <= temperature.value]
    if not fitting:
        what = f"{table} at {temperature.value:g} °C insulation: it begins at {ratings[0]:g} °C"
        return Unknown(f"current in {table}", (what,), (temperature,))
    made = derive(
        lambda _: fitting[-1], "insulation column", "T", "°C", "largest listed ≤ T_r",
        renamed(temperature, "T_r"), source=source,
    )  # fmt: skip
    assert isinstance(made, Derived)
    return made


def read_at(figure: Derived, at: Derived, of: Derived, quantity: str, symbol: str) -> Value:
    """A listed figure, in its unit, for what is at least as large as the row it stands in.

    at -- the row's size; of -- the conductor's
    """
    formula = f"{figure.symbol} at {at.symbol} ≤ {of.symbol}"
    return derive(
        lambda value, _row, _own: value, quantity, symbol, figure.unit, formula, figure, at, of
    )
