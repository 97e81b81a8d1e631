"""Sheets of parts as CSV text: one part a row, a column a field (see `cells`), nothing lost.

The package `sheets` reads and writes them, from files of other kinds too.
"""

from __future__ import annotations

import io
from collections.abc import Iterable

from catalogue.parts import Part
from catalogue.sheets.grid import Grid, rows_of
from catalogue.sheets.guard import guarded, unguarded
from catalogue.sheets.rows import parts_of
from catalogue.sheets.writing import as_csv

__all__ = ["guarded", "read_sheet", "unguarded", "write_sheet"]


def write_sheet(parts: Iterable[Part]) -> str:
    """The sheet of these parts: the columns that any of them states, in the fields' order."""
    return as_csv(parts)


def read_sheet(text: str) -> tuple[Part, ...]:
    """The parts of a sheet. Raises SheetError with every problem of every row."""
    stream = io.StringIO(text.removeprefix("\ufeff"), newline="")
    return tuple(parts_of(Grid("", rows_of(stream))))
