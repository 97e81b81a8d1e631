"""One printed figure with ours beside it."""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

PUBLISHED = Path(__file__).parents[2] / "fixtures" / "published"

STATES = {"yes": "read", "no": "from memory", "hand": "by hand"}

Row = dict[str, str]


class Comparison(NamedTuple):
    """What was printed of something, and what our code gives for it, both in `unit`.

    state -- whether the printed figure was read, is from memory, or is a sum by hand
    """

    what: str
    printed: float
    ours: float
    unit: str
    source: str
    state: str

    @property
    def deviation(self) -> float:
        """How far ours is above the printed figure, as a share of it."""
        return self.ours / self.printed - 1


class Check(NamedTuple):
    """A table of fixtures/published, what of it is compared, and what a reader must know.

    column -- of the printed figures; name -- what a row is about
    low, high -- shares between which every deviation lies
    recalled  -- the column is from memory whatever the rest of the table is
    """

    table: str
    title: str
    column: str
    unit: str
    name: Callable[[Row], str]
    ours: Callable[[Row], float | None]
    low: float
    high: float
    remark: str
    recalled: bool = False

    def comparisons(self) -> Iterator[Comparison]:
        """Every row that the check is about."""
        for row in rows_of(self.table):
            found = self.ours(row) if row[self.column] else None
            if found is not None:
                printed = float(row[self.column])
                state = STATES["no" if self.recalled else row["read"]]
                yield Comparison(self.name(row), printed, found, self.unit, row["source"], state)


def rows_of(table: str) -> list[Row]:
    """The rows of a published table."""
    with (PUBLISHED / f"{table}.csv").open(newline="", encoding="utf-8") as stream:
        return list(csv.DictReader(stream))


def named(*columns: str) -> Callable[[Row], str]:
    """A row by some of its cells."""
    return lambda row: ", ".join(_words(column, row[column]) for column in columns)


def _words(column: str, cell: str) -> str:
    units = {"mm2": "mm²", "c": "°C", "mm": "mm", "in": "in", "a": "A", "k": "K"}
    unit = units.get(column.rpartition("_")[2], "") if "_" in column else ""
    return f"{cell} {unit}".strip()


def largest(found: Iterable[Comparison]) -> Comparison:
    """The one that deviates most, up or down."""
    return max(found, key=lambda each: abs(each.deviation))
