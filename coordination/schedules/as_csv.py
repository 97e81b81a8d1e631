"""A schedule as CSV that no spreadsheet program takes for formulas."""

from __future__ import annotations

import csv
import io
import re

from coordination.schedules.kinds import Schedule

#: Signs at the start of a cell by which a program may take it for a formula, full-width ones too,
#: there or behind a semicolon, which some take for the separator.
_FORMULA = re.compile(r"(^|;)(\s*)(?=[=+\-@\uff1d\uff0b\uff0d\uff20|%])")


def as_csv(schedule: Schedule) -> bytes:
    """Heading and rows, every cell quoted, in UTF-8 with the mark by which programs know it.

    A cell that would be taken for a formula begins with an apostrophe.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    writer.writerow([column.name for column in schedule.columns])
    writer.writerows([plain_text(cell) for cell in row] for row in schedule.rows)
    return text.getvalue().encode("utf-8-sig")


def plain_text(cell: str) -> str:
    """The cell, with an apostrophe before whatever might start a formula.

    >>> plain_text("=1+1")
    "'=1+1"
    """
    return _FORMULA.sub(r"\1\2'", cell)
