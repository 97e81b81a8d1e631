"""Rows of text out of a file: CSV as it is, a workbook sheet by sheet as its cells show.

Knows files and cells; what the columns mean is for `heading` and `rows`.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Final, NamedTuple

from catalogue.errors import CatalogueError
from catalogue.near_miss import hint_of
from catalogue.problems import SheetError, SheetProblem

#: The largest sheet that is read [bytes]; a million parts are some 100 MB.
LARGEST: Final = 1_000_000_000
#: The longest cell [characters] of a CSV file: longer than any text that a part may have.
LONGEST: Final = 16_000_000
ENDINGS: Final = ("csv", "xlsx", "json")


class Grid(NamedTuple):
    """One sheet: its name (empty for CSV), and its rows, each with its number in the file."""

    name: str
    rows: Iterator[tuple[int, list[str]]]


def ending_of(path: str) -> str:
    """The ending of a file's name, in small letters: "csv"; empty if it has none."""
    return Path(path).suffix.lower().removeprefix(".")


def letter_of(place: int) -> str:
    """What a spreadsheet calls the column at `place` (0-based): "A", "Z", "AA" ..."""
    letters = ""
    place += 1
    while place:
        place, rest = divmod(place - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def open_grid(path: str, sheet: str = "") -> Grid:
    """The one sheet to read of a CSV file or a workbook.

    sheet -- its name in a workbook; empty: the only one that holds anything
    Raises CatalogueError, SheetError (no CSV, not UTF-8), OSError.
    """
    size = Path(path).stat().st_size
    if size > LARGEST:
        raise CatalogueError(f"{path!r} is larger than {LARGEST // 1_000_000} MB")
    ending = ending_of(path)
    if ending in ("xlsx", "xlsm"):
        from catalogue.sheets.workbook import sheets_of

        return chosen(sheets_of(path), sheet, path)
    if ending in ("xls", "ods", "md"):
        raise CatalogueError(f"{path!r} is not read here: save it as CSV UTF-8 or as XLSX")
    if sheet:
        raise CatalogueError(f"{path!r} is no workbook: it has no sheet {sheet[:60]!r}")
    return Grid("", _rows_of_file(path))


def chosen(grids: dict[str, Grid], sheet: str, path: str) -> Grid:
    """The sheet that is asked for, or the only one. Raises CatalogueError."""
    names = ", ".join(repr(name) for name in grids)
    if sheet:
        if sheet not in grids:
            hint = hint_of(sheet, grids) or f"it has {names}"
            raise CatalogueError(f"{path!r} has no sheet {sheet[:60]!r}; {hint}")
        return grids[sheet]
    if len(grids) != 1:
        what = f"it has several sheets: {names}" if grids else "no sheet of it holds anything"
        hint = "; --sheet NAME, or `sheet:` in the map, names the one to read" if grids else ""
        raise CatalogueError(f"{path!r} cannot be read as it is: {what}{hint}")
    return next(iter(grids.values()))


def _rows_of_file(path: str) -> Iterator[tuple[int, list[str]]]:
    """The rows of a CSV file. Raises SheetError while it is read, if it is not UTF-8 or no CSV."""
    try:
        with open(path, encoding="utf-8-sig", newline="") as stream:
            yield from rows_of(stream)
    except UnicodeDecodeError as error:
        problem = SheetProblem(
            _line_of_bad_byte(path), "", "this is not UTF-8", "save the sheet as CSV UTF-8"
        )
        raise SheetError((problem,)) from error


def _line_of_bad_byte(path: str) -> int:
    data = Path(path).read_bytes()
    try:
        data.decode("utf-8")
    except UnicodeDecodeError as error:
        return data[: error.start].count(b"\n") + 1
    return 0


def rows_of(stream: Iterable[str]) -> Iterator[tuple[int, list[str]]]:
    """The rows of lines of CSV, numbered from 1. Raises SheetError while they are read."""
    before = csv.field_size_limit(LONGEST)
    reader = csv.reader(stream, strict=True)
    try:
        yield from enumerate(reader, start=1)
    except csv.Error as error:
        problem = SheetProblem(reader.line_num, "", f"this is no CSV: {error}")
        raise SheetError((problem,)) from error
    finally:
        csv.field_size_limit(before)
