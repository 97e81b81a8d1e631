"""`fusewright schedule`: one of the sheets that are handed over, on the terminal or as a file."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from coordination.checking import Request, findings_of, known_word
from coordination.cli.output import columns, emit
from coordination.cli.written import format_of, known_language, today, write_whole
from coordination.errors import BadInput, Problem
from coordination.languages.files import language
from coordination.languages.language import plain
from coordination.report.speakers import packages_of
from coordination.report.view import View
from coordination.report.wording import clean

if TYPE_CHECKING:
    from datetime import date

    from coordination.languages.language import Language
    from coordination.rules.finding import Findings
    from coordination.schedules import Schedule

FORMATS = ("csv", "xlsx")


def write_schedule(
    request: Request, name: str, output: str | None, width: int | None, code: str = "en"
) -> int:
    """Print the schedule, or write it; gives 0. Raises BadInput, CatalogueError, OSError."""
    from coordination.schedules import NAMES, schedule_of
    from coordination.schedules.translated import in_language, plainly

    if name not in NAMES and request.file in NAMES:
        # FILE first, as the other commands have it, is as clear.
        name, request = request.file, request._replace(file=name)
    known_word("schedule", name, NAMES, "fusewright schedule")
    format = None if output is None else format_of(output, FORMATS, "a schedule")
    workbook = _workbook() if format == "xlsx" else None
    known_language(code)
    findings, made = findings_of(request), today()
    words = language(code, packages_of(findings.packs))
    found = plainly(in_language(schedule_of(findings, name, made), words))
    if output is None:
        from coordination.schedules.as_text import as_text

        emit(as_text(found, columns(width), words))
        return 0
    write_whole(output, _content(found, findings, request, made, workbook, words))
    rows = f"{len(found.rows)} {'row' if len(found.rows) == 1 else 'rows'}"
    emit(f"{clean(output)} is written: {found.title}, {rows}\n")
    return 0


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
    found: Schedule, findings: Findings, request: Request, made: date, workbook: Any,
    words: Language,
) -> bytes:
    if workbook is None:
        from coordination.schedules.as_csv import as_csv

        return as_csv(found)
    from coordination.report.summary import basis

    rows = [
        (words.say("verdict"), _headline(findings, words)),
        *basis(findings, View(restricted=request.restrictions()), words),
        (words.say("calculated"), made.isoformat()),
    ]
    told = [(plain(label), plain(text)) for label, text in rows]
    content: bytes = workbook(found, told, made, words)
    return content


def _headline(findings: Findings, words: Language) -> str:
    """The verdict with the number of findings of each."""
    from coordination.report.summary import ORDER, headline

    if words.code == "en":
        return headline(findings)
    counts = ", ".join(f"{findings.counts[each]} {words.say(each)}" for each in ORDER)
    return f"{words.say(findings.verdict).upper()}: {counts}"
