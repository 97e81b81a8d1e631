"""Parts as a sheet: CSV, XLSX or JSON that `import` reads back without loss.

Cells hold what `cells.to_cells` writes, headings are the columns' names, and no cell is a formula.
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterable, Sequence
from typing import Any, Final

from catalogue.cells import every_column, from_cells, to_cells
from catalogue.errors import CatalogueError
from catalogue.parts import Part
from catalogue.sheets.guard import guarded
from catalogue.sheets.workbook import openpyxl

#: What a JSON file of parts says it is.
FORMAT: Final = "fusewright parts"
#: The most that a cell and a sheet of a workbook hold.
_LONGEST, _MOST_ROWS = 32_767, 1_048_575
#: What XML cannot hold or would change, and what looks like the escape of it.
_ODD: Final = re.compile("[\x00-\x08\x0b-\x1f\ufffe\uffff]|_(?=x[0-9A-Fa-f]{4}_)")


def table_of(parts: Iterable[Part]) -> tuple[list[str], list[list[str]]]:
    """The heading and the rows: the columns that any part states, in the fields' order."""
    listed = [(part, to_cells(part)) for part in parts]
    used = {column for _, cells in listed for column in cells}
    columns = [column for column in every_column() if column in used]
    rows = [
        [part.id, part.kind, *(cells.get(column, "") for column in columns)]
        for part, cells in listed
    ]
    return ["id", "kind", *columns], rows


def as_csv(parts: Iterable[Part]) -> str:
    """The sheet as CSV; a cell that looks like a formula has an apostrophe before it."""
    heading, rows = table_of(parts)
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(heading)
    writer.writerows([guarded(cell) for cell in row] for row in rows)
    return out.getvalue()


def as_json(parts: Iterable[Part]) -> str:
    """The parts as JSON, each with its fields as a system file's `parts:` would state them."""
    listed = [
        {"id": part.id, "kind": part.kind, **from_cells(part.kind, to_cells(part))[0]}
        for part in parts
    ]
    whole = {"format": FORMAT, "version": 1, "parts": listed}
    return json.dumps(whole, ensure_ascii=False, indent=1) + "\n"


def as_xlsx(parts: Iterable[Part]) -> bytes:
    """The sheet as a workbook of texts. Raises CatalogueError: openpyxl is missing, too large."""
    library = openpyxl()
    heading, rows = _folded(*table_of(parts))
    if len(rows) > _MOST_ROWS:
        what = f"{len(rows):,} parts are more than a sheet of a workbook has rows"
        raise CatalogueError(f"{what} ({_MOST_ROWS:,}); export CSV or JSON")
    book = library.Workbook(write_only=True)
    page = book.create_sheet("parts")
    page.freeze_panes = "B2"
    for row in (heading, *rows):
        page.append([_text_cell(page, cell) for cell in row])
    content = io.BytesIO()
    book.save(content)
    return content.getvalue()


def _folded(
    heading: Sequence[str], rows: Sequence[Sequence[str]]
) -> tuple[list[str], list[list[str]]]:
    """The table with texts that are longer than a cell holds in several: notes, notes+2 ..."""
    pieces = [[_pieces(cell) for cell in row] for row in rows]
    widths = [max((len(row[place]) for row in pieces), default=1) for place in range(len(heading))]
    names = [
        name if number == 1 else f"{name}+{number}"
        for name, width in zip(heading, widths, strict=True)
        for number in range(1, width + 1)
    ]
    return names, [
        [
            cell[number] if number < len(cell) else ""
            for cell, width in zip(row, widths, strict=True)
            for number in range(width)
        ]
        for row in pieces
    ]


def _pieces(text: str) -> list[str]:
    """The text in pieces that a cell holds, however the signs in it are escaped."""
    if len(text) * 7 <= _LONGEST or (text.isascii() and len(_escaped(text)) <= _LONGEST):
        return [text]
    # A sign takes up to seven in its escape, and two where it is beyond the first 65,536.
    size = _LONGEST // 7
    return [text[at : at + size] for at in range(0, len(text), size)]


def _text_cell(page: Any, text: str) -> Any:
    """A cell that is text, whatever it looks like: no formula, no number, no date."""
    from openpyxl.cell import WriteOnlyCell

    cell = WriteOnlyCell(page, value=_escaped(text) or None)
    if text:
        cell.data_type = "s"
        cell.quotePrefix = True
    return cell


def _escaped(text: str) -> str:
    """The text with `_x001F_` for what XML cannot hold, as spreadsheet programs write it."""
    return _ODD.sub(lambda match: f"_x{ord(match[0]):04X}_", text)
