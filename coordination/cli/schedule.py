"""`fusewright schedule`: one of the sheets that are handed over, on the terminal or as a file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from coordination.checking import Request, findings_of, known_word
from coordination.cli.curves import today, write_whole
from coordination.cli.output import columns, emit
from coordination.errors import BadInput, Problem
from coordination.report.view import View
from coordination.report.wording import clean

if TYPE_CHECKING:
    from datetime import date

    from coordination.rules.finding import Findings
    from coordination.schedules import Schedule

FORMATS = ("csv", "xlsx")


def write_schedule(request: Request, name: str, output: str | None, width: int | None) -> int:
    """Print the schedule, or write it; gives 0. Raises BadInput, CatalogueError, OSError."""
    from coordination.schedules import NAMES, schedule_of

    if name not in NAMES and request.file in NAMES:
        # FILE first, as the other commands have it, is as clear.
        name, request = request.file, request._replace(file=name)
    known_word("schedule", name, NAMES, "fusewright schedule")
    format = None if output is None else _format(output)
    workbook = _workbook() if format == "xlsx" else None
    findings, made = findings_of(request), today()
    found = schedule_of(findings, name, made)
    if output is None:
        from coordination.schedules.as_text import as_text

        emit(as_text(found, columns(width)))
        return 0
    write_whole(output, _content(found, findings, request, made, workbook))
    rows = f"{len(found.rows)} {'row' if len(found.rows) == 1 else 'rows'}"
    emit(f"{clean(output)} is written: {found.title}, {rows}\n")
    return 0


def _format(output: str) -> str:
    """The format that a file's name asks for. Raises BadInput for another."""
    ending = output.rpartition(".")[2].lower() if "." in Path(output).name else ""
    known_word("format of a schedule", ending, FORMATS, f"-o {output}")
    return ending


def _workbook() -> Any:
    """What writes workbooks. Raises BadInput where its library is not installed."""
    try:
        from coordination.schedules.as_xlsx import as_xlsx
    except ModuleNotFoundError as error:
        what = f"a workbook needs {error.name}, which is not installed"
        allowed = "-o FILE.csv, or pip install 'fusewright[sheets]' (Debian: python3-openpyxl)"
        raise BadInput((Problem("fusewright schedule", 0, 0, what, allowed),)) from None
    return as_xlsx


def _content(
    found: Schedule, findings: Findings, request: Request, made: date, workbook: Any
) -> bytes:
    if workbook is None:
        from coordination.schedules.as_csv import as_csv

        return as_csv(found)
    from coordination.report.summary import basis, headline

    rows = [
        ("verdict", headline(findings)),
        *basis(findings, View(restricted=request.restrictions())),
        ("calculated", made.isoformat()),
    ]
    content: bytes = workbook(found, rows, made)
    return content
