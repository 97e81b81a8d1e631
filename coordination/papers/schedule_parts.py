"""Schedules as the page shows them: its language, links to the diagram, boxes to fill in."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from coordination.papers.places import Places
from coordination.papers.table import Cell, Row, Table, parts_of, table
from coordination.report.anchors import DEVICE, FINDING, anchor
from coordination.report.summary import ORDER
from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.papers.language import Language
    from coordination.schedules import Column, Schedule

#: Letters that a piece of a schedule may be wide; more would be too small to read on paper.
ROOM = 130

#: The record is filled in across: it stays whole, on a broad sheet.
WHOLE = 1000

#: Schedules that have a part of the page of their own.
OWN = ("labels", "commissioning")

ON_SITE = "on site"

#: Columns of words, not of names out of the file, which stay as they are in every language.
_WORDED = frozenset({
    "kind", "leg", "sheathed", "normally", "critical", "always on", "selective up to",
    "test", "method", "expected", "limit",
})  # fmt: skip

#: How a label's text begins that is not to be made while something fails.
_WITHHELD = "no label: "


class Sheet(NamedTuple):
    """A schedule in pieces, with what its columns are for."""

    title: str
    parts: tuple[Table, ...]
    columns: tuple[Column, ...]


class Label(NamedTuple):
    """One label: of which kind, where it is stuck, and what it says."""

    kind: str
    place: str
    head: str
    text: str


def sheet_of(
    schedule: Schedule, words: Language, places: Places, room: int = ROOM
) -> Sheet:
    """The schedule as the page shows it."""
    title = words.say(schedule.title)
    columns = tuple(_said(column, words) for column in schedule.columns)
    heads = [column.name for column in columns]
    whole = table(title, heads, list(_rows(schedule, words, places)))
    return Sheet(title, parts_of(whole, room) if whole.rows else (), columns)


def _said(column: Column, words: Language) -> Column:
    say = words.say
    return column._replace(
        name=say(column.name), purpose=say(column.purpose), source=say(column.source)
    )


def _rows(schedule: Schedule, words: Language, places: Places) -> Iterator[Row]:
    subjects = schedule.subjects or ("",) * len(schedule.rows)
    for texts, subject in zip(schedule.rows, subjects, strict=True):
        cells = tuple(
            _cell(column, _words(column.name, text, subject, words), subject)
            for column, text in zip(schedule.columns, texts, strict=True)
        )
        yield Row(cells, places.claim(anchor(FINDING, subject)) if subject else "")


def _words(column: str, text: str, subject: str, words: Language) -> str:
    """A cell in the page's language, where it holds words and not a name out of the file."""
    ours = column in _WORDED or (column == "subject" and not subject)
    return words.say(text) if ours else text


def _cell(column: Column, text: str, subject: str) -> Cell:
    if column.source == ON_SITE and not text:
        return Cell("", box=True)
    if column.name == "verdicts":
        return Cell(text, tone=_tone(text))
    names = subject and text == clean(subject)
    return Cell(text, f"#{anchor(DEVICE, subject)}" if names else "")


def _tone(verdicts: str) -> str:
    """The first verdict named: "2 fail: ...; 5 pass" is in the colour of fails."""
    word = verdicts.partition(" ")[2].partition(":")[0].partition(";")[0]
    return word if word in ORDER else ""


def labels_of(schedule: Schedule, words: Language) -> tuple[list[Label], list[Label]]:
    """Labels to print, and those that are withheld because of a fail."""
    names = [column.name for column in schedule.columns]
    labels: tuple[list[Label], list[Label]] = ([], [])
    for row in schedule.rows:
        told = dict(zip(names, row, strict=True))
        withheld = told["text"].startswith(_WITHHELD)
        labels[withheld].append(_label(told, words))
    return labels


def _label(told: dict[str, str], words: Language) -> Label:
    """What it is stuck to heads a label and is not said twice."""
    at = told["at"]
    text = told["text"].removeprefix(f"{at}: ").removeprefix(_WITHHELD)
    place = ", ".join(filter(None, (at, told["place"])))
    return Label(words.say(told["label"]), place, at, text[:1].upper() + text[1:])
