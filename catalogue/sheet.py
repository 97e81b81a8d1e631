"""Sheets of parts as CSV: one part a row, a column a field (see `cells`), nothing lost either way.

Cells that a spreadsheet would take for a formula are written with an apostrophe before them, which
reading takes off again.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator
from typing import Final

from catalogue.building import build
from catalogue.cells import column_of, columns_for, every_column, from_cells, to_cells
from catalogue.near_miss import hint_of
from catalogue.parts import KINDS, Part
from catalogue.problems import SheetError, SheetProblem

_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r", "'")
#: Problems listed of one sheet; more than anybody mends in one go.
_MOST: Final = 200


def guarded(cell: str) -> str:
    """The cell as written to a sheet: no spreadsheet takes it for a formula."""
    return f"'{cell}" if cell.startswith(_FORMULA) else cell


def unguarded(cell: str) -> str:
    """The cell as it was before `guarded`."""
    return cell[1:] if cell[:1] == "'" and cell[1:].startswith(_FORMULA) else cell


def write_sheet(parts: Iterable[Part]) -> str:
    """The sheet of these parts: the columns that any of them states, in the fields' order."""
    listed = [(part, to_cells(part)) for part in parts]
    used = {column for _, cells in listed for column in cells}
    columns = [column for column in every_column() if column in used]
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(["id", "kind", *columns])
    for part, cells in listed:
        row = [part.id, part.kind, *(cells.get(column, "") for column in columns)]
        writer.writerow([guarded(cell) for cell in row])
    return out.getvalue()


def read_sheet(text: str) -> tuple[Part, ...]:
    """The parts of a sheet. Raises SheetError with every problem of every row."""
    problems: list[SheetProblem] = []
    parts = tuple(_parts(text.removeprefix("\ufeff"), problems))
    if problems:
        left = len(problems) - _MOST
        more = [SheetProblem(0, "", f"{left} more problems are not listed")] if left > 0 else []
        raise SheetError((*problems[:_MOST], *more))
    return parts


def _parts(text: str, problems: list[SheetProblem]) -> Iterator[Part]:
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    seen: dict[str, int] = {}
    heading: list[str] | None = None
    try:
        for number, row in enumerate(reader, start=1):
            if heading is None:
                heading = [unguarded(cell).strip() for cell in row]
                if not _heading_fits(heading, problems):
                    return
            elif any(cell.strip() for cell in row):
                part = _row(number, heading, row, problems)
                if part is not None and _is_new(part, number, seen, problems):
                    yield part
    except csv.Error as error:
        problems.append(SheetProblem(reader.line_num, "", f"this is no CSV: {error}"))
    if heading is None:
        problems.append(SheetProblem(0, "", "it is empty", "the first row names the columns"))


def _is_new(
    part: Part, number: int, seen: dict[str, int], problems: list[SheetProblem]
) -> bool:
    """Whether no row before states a part of that id."""
    if part.id in seen:
        what = f"{part.id!r} stands in row {seen[part.id]} too"
        problems.append(SheetProblem(number, "id", what))
        return False
    seen[part.id] = number
    return True


def _heading_fits(heading: list[str], problems: list[SheetProblem]) -> bool:
    """Whether the first row names known columns, each once, id and kind among them."""
    before = len(problems)
    known = ("id", "kind", *every_column())
    for name in ("id", "kind"):
        if name not in heading:
            problems.append(SheetProblem(1, name, f"there is no column {name!r}"))
    for place, name in enumerate(heading):
        if name not in known:
            problems.append(
                SheetProblem(1, name, f"no part has a field {name!r}", hint_of(name, known))
            )
        elif name in heading[:place]:
            problems.append(SheetProblem(1, name, f"column {name!r} stands twice"))
    return len(problems) == before


def _row(
    number: int, heading: list[str], row: list[str], problems: list[SheetProblem]
) -> Part | None:
    """The part of one row; None after noting what is wrong with it."""
    if len(row) > len(heading):
        problems.append(SheetProblem(number, "", "there are more cells than columns"))
        return None
    cells = {name: unguarded(cell) for name, cell in zip(heading, row, strict=False) if cell}
    part_id, kind = cells.pop("id", ""), cells.pop("kind", "").strip()
    if kind not in KINDS:
        hint = hint_of(kind, KINDS) if kind else ""
        what = f"{kind[:40]!r} is no kind of part"
        problems.append(SheetProblem(number, "kind", what, hint or f"one of: {', '.join(KINDS)}"))
        return None
    foreign = [column for column in cells if column not in columns_for(kind)]
    problems.extend(
        SheetProblem(number, column, f"a {kind} has no {column}") for column in foreign
    )
    stated, found = from_cells(kind, cells)
    part, more = build(part_id, kind, stated)
    problems.extend(
        SheetProblem(number, column_of(problem.path), problem.what, problem.hint)
        for problem in (*found, *more)
    )
    return None if found or foreign else part
