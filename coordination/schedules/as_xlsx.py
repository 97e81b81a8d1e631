"""A schedule as a workbook: text cells only, ready to print, and a page on what it rests on."""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from datetime import date, datetime, time
from typing import Any

from openpyxl import Workbook
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.utils import get_column_letter

from coordination.languages.language import ENGLISH, Language, plain
from coordination.schedules.kinds import Schedule
from coordination.schedules.sheet import ON_SITE

#: Narrowest and widest column, in characters.
_NARROW, _WIDE = 8, 44
_HEAD = PatternFill("solid", start_color="FFE7E5DF")
_BOX = PatternFill("solid", start_color="FFFBFAF3")
_LINE = Border(bottom=Side("hair", "FF8A8578"))
_TOP = Alignment(wrap_text=True, vertical="top")


def as_xlsx(
    schedule: Schedule,
    basis: Iterable[tuple[str, str]],
    made: date,
    words: Language = ENGLISH,
) -> bytes:
    """The workbook: the schedule, then a page with the basis and what each column means.

    basis -- label and text, as the report's head has them; words -- the schedule's language
    """
    book = Workbook()
    book.properties.creator = "fusewright"
    book.properties.title = schedule.title
    book.properties.created = book.properties.modified = datetime.combine(made, time())
    first: Any = book.active
    first.title = schedule.name
    _fill(first, [column.name for column in schedule.columns], schedule.rows)
    _boxes(first, schedule, words.say(ON_SITE))
    title = plain(words.say("about"))
    about = book.create_sheet(title)
    columns = [(column.name, f"{column.purpose} ({column.source})") for column in schedule.columns]
    _fill(about, (title, schedule.title), [*basis, ("", ""), *columns])
    content = io.BytesIO()
    book.save(content)
    return content.getvalue()


def _fill(page: Any, heading: Sequence[str], rows: Iterable[Sequence[str]]) -> None:
    table = [tuple(heading), *map(tuple, rows)]
    for number, row in enumerate(table, start=1):
        for place, text in enumerate(row, start=1):
            cell = page.cell(number, place)
            cell.value = text
            # Whatever it looks like: no formula, no number, no date.
            cell.data_type = "s"
            cell.quotePrefix = True
            cell.alignment, cell.border = _TOP, _LINE
            if number == 1:
                cell.font, cell.fill = Font(bold=True), _HEAD
    for place, column in enumerate(zip(*table, strict=True), start=1):
        widest = max(map(len, column)) + 2
        page.column_dimensions[get_column_letter(place)].width = min(max(widest, _NARROW), _WIDE)
    page.freeze_panes = "B2"
    page.print_title_rows = "1:1"
    page.page_setup.orientation = "landscape"
    page.page_setup.paperSize = page.PAPERSIZE_A4
    page.page_setup.fitToWidth, page.page_setup.fitToHeight = 1, 0
    page.sheet_properties.pageSetUpPr.fitToPage = True


def _boxes(page: Any, schedule: Schedule, on_site: str) -> None:
    """Shade what is filled in by hand."""
    for place, column in enumerate(schedule.columns, start=1):
        if column.source == on_site:
            for number in range(2, len(schedule.rows) + 2):
                page.cell(number, place).fill = _BOX
