"""Rows of published figures as test cases: every case shows its source's state, read or not."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

import pytest

from coordination.physics.conductors import awg_area, awg_number

PUBLISHED = Path(__file__).parents[3] / "fixtures" / "published"
#: One thousand circular mils [m²], as ASTM B258 defines the circular mil.
KCMIL = 5.067075e-7


@dataclass(frozen=True)
class Row:
    """One line of a table in fixtures/published, with where it comes from."""

    table: str
    cells: dict[str, str]

    def __getitem__(self, column: str) -> float:
        return float(self.cells[column])

    def text(self, column: str) -> str:
        return self.cells[column]

    def half_digit(self, column: str) -> float:
        """Half a unit of the last digit that was printed."""
        exponent = Decimal(self.cells[column]).as_tuple().exponent
        return 0.5 * 10.0 ** int(exponent)

    def area(self) -> float:
        """Nominal area [m²] of the `size` column: a gauge, or kcmil from 250 up."""
        size = self.cells["size"]
        if size.isdigit() and int(size) >= 250:
            return float(size) * KCMIL
        return awg_area(awg_number(size))

    @property
    def read(self) -> bool:
        return self.cells["read"] == "yes"

    def __str__(self) -> str:
        return f"{self.cells} ({self.table})"


def read_table(name: str) -> list[Row]:
    with (PUBLISHED / f"{name}.csv").open(newline="", encoding="utf-8") as file:
        return [Row(name, cells) for cells in csv.DictReader(file)]


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line(
        "markers", "published(table, only=None): one case a row of fixtures/published/<table>.csv"
    )


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    mark = metafunc.definition.get_closest_marker("published")
    if mark is None:
        return
    only = mark.kwargs.get("only")
    rows = [row for row in read_table(mark.args[0]) if only is None or only(row)]
    assert rows, f"no rows of {mark.args[0]} are left to test"
    states = {"yes": "read", "no": "from memory", "hand": "by hand"}
    names = ["-".join([*list(r.cells.values())[:-2][:3], states[r.cells["read"]]]) for r in rows]
    metafunc.parametrize("row", rows, ids=names)


@pytest.fixture(scope="session")
def published():
    """A whole table by name, for tests about several rows at once."""
    return read_table
