"""The sheets of a workbook (XLSX) as rows of text; openpyxl (extra `sheets`) is imported here.

A workbook is a zip of XML from anybody: too much of it, or declarations of entities, are refused
before they are parsed. Formulas count by the value they last had; one without a value is refused.
"""

from __future__ import annotations

import re
import warnings
import zipfile
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from datetime import date, datetime, time, timedelta
from typing import Any, Final

from catalogue.errors import CatalogueError
from catalogue.problems import SheetError, SheetProblem
from catalogue.sheets.grid import Grid, letter_of

#: The most that the files in a workbook may unpack to [bytes].
_LARGEST: Final = 2_000_000_000
#: What the writer of a workbook makes of a sign that XML cannot hold: `_x001F_`.
_ESCAPED: Final = re.compile("_x([0-9A-Fa-f]{4})_")
_INSTALL: Final = "pip install 'fusewright[sheets]' (Debian: python3-openpyxl)"


def openpyxl() -> Any:
    """The library. Raises CatalogueError where it is not installed."""
    try:
        import openpyxl as library
    except ModuleNotFoundError:
        what = "a workbook needs openpyxl, which is not installed"
        raise CatalogueError(f"{what}: {_INSTALL}, or use CSV") from None
    return library


def sheets_of(path: str) -> dict[str, Grid]:
    """The sheets that hold anything, by name. Raises CatalogueError, OSError."""
    formulas = _looked_through(path)
    found = {}
    with _opened(path) as book:
        for page in book.worksheets:
            page.reset_dimensions()
            rows = _read(page.values, path)
            if any(any(value is not None for value in row) for row in rows):
                found[page.title] = Grid(page.title, _rows(path, page.title, formulas))
    return found


@contextmanager
def _opened(path: str, *, formulas: bool = False) -> Iterator[Any]:
    """The workbook: with the values that its formulas last had, or with the formulas."""
    library = openpyxl()
    with open(path, "rb") as stream:
        try:
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")
                book = library.load_workbook(stream, read_only=True, data_only=not formulas)
        # The library raises whatever the XML in the file made it stumble over.
        except Exception as error:
            raise CatalogueError(f"{path!r} is no workbook that can be read: {error}") from error
        try:
            yield book
        finally:
            book.close()


def _looked_through(path: str) -> bool:
    """Whether any sheet has formulas. Raises CatalogueError for what is no honest workbook."""
    formulas = False
    try:
        with zipfile.ZipFile(path) as archive:
            if sum(each.file_size for each in archive.infolist()) > _LARGEST:
                size = f"{_LARGEST // 1_000_000} MB"
                raise CatalogueError(f"{path!r} unpacks to more than {size}: no workbook does")
            for name in archive.namelist():
                if not name.lower().endswith((".xml", ".rels")):
                    continue
                with archive.open(name) as stream:
                    if b"<!" in stream.read(2000).replace(b"<!--", b""):
                        raise CatalogueError(f"{path!r} declares entities: no workbook does")
                    if "worksheets/" in name and not formulas:
                        stream.seek(0)
                        formulas = _has_formula(stream)
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError) as error:
        raise CatalogueError(f"{path!r} is no workbook: {error}") from error
    return formulas


def _has_formula(stream: Any) -> bool:
    tail = b""
    while block := stream.read(1_000_000):
        text = tail + block
        if b"<f>" in text or b"<f " in text:
            return True
        tail = block[-3:]
    return False


def _rows(path: str, title: str, formulas: bool) -> Iterator[tuple[int, list[str]]]:
    """The rows as text. Raises SheetError for cells that show an error, or a value never made."""
    with ExitStack() as stack:
        page = stack.enter_context(_opened(path))[title]
        page.reset_dimensions()
        others: Iterator[Any] = iter(())
        if formulas:
            asked = stack.enter_context(_opened(path, formulas=True))[title]
            asked.reset_dimensions()
            others = asked.iter_rows()
        for number, row in enumerate(_read(page.iter_rows(), path), start=1):
            problems = [
                SheetProblem(number, "", what, sheet=title, letter=letter_of(place))
                for place, what in _unusable(row, next(others, ()))
            ]
            if problems:
                raise SheetError(tuple(problems))
            yield number, [_shown(cell) for cell in row]


def _read(rows: Any, path: str) -> Iterator[Any]:
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            yield from rows
    # As above: whatever the XML made it stumble over.
    except Exception as error:
        raise CatalogueError(f"{path!r} cannot be read to its end: {error}") from error


def _unusable(row: Any, asked: Any) -> Iterator[tuple[int, str]]:
    """Places and reasons of cells that have no value to take."""
    for place, cell in enumerate(row):
        if cell.data_type == "e" and cell.value is not None:
            yield place, f"the cell shows {str(cell.value)[:20]!r}"
    for place, cell in enumerate(asked):
        if cell.data_type == "f" and (place >= len(row) or row[place].value is None):
            yield place, "a formula that has no value yet; open the sheet in its program and save"


def _shown(cell: Any) -> str:
    """The cell as text; a number as short as it can be written, a percentage with its sign."""
    value = cell.value
    if value is None:
        return ""
    if isinstance(value, str):
        return _ESCAPED.sub(lambda match: chr(int(match[1], 16)), value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, (int, float)):
        percent = "%" in str(cell.number_format or "")
        number = float(f"{value * 100:.12g}") if percent else value
        text = str(int(number)) if float(number).is_integer() else repr(number)
        return f"{text} %" if percent else text
    if isinstance(value, datetime) and value.time() == time():
        return value.date().isoformat()
    if isinstance(value, date):
        return value.isoformat()
    return f"{value.total_seconds():g} s" if isinstance(value, timedelta) else str(value)
