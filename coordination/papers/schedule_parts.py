"""Schedules as the page shows them: its language, links to the diagram, boxes to fill in."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from coordination.papers.places import Places
from coordination.papers.table import Cell, Row, Table, parts_of, table
from coordination.report.anchors import DEVICE, FINDING, anchor
from coordination.report.summary import ORDER
from coordination.report.wording import clean
from coordination.schedules.translated import in_language, subjects_of

if TYPE_CHECKING:
    from coordination.languages.language import Language
    from coordination.schedules import Column, Schedule

#: Letters that a piece of a schedule may be wide; more would be too small to read on paper.
ROOM = 130

#: The record is filled in across: it stays whole, on a broad sheet.
WHOLE = 1000

#: Schedules that have a part of the page of their own.
OWN = ("labels", "commissioning")

ON_SITE = "on site"

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
    said = in_language(schedule, words)
    heads = [column.name for column in said.columns]
    whole = table(said.title, heads, list(_rows(schedule, said, places)))
    return Sheet(said.title, parts_of(whole, room) if whole.rows else (), said.columns)


def _rows(schedule: Schedule, said: Schedule, places: Places) -> Iterator[Row]:
    rows = zip(schedule.rows, said.rows, subjects_of(schedule), strict=True)
    for texts, told, subject in rows:
        cells = tuple(map(_cell, schedule.columns, texts, told, (subject,) * len(texts)))
        yield Row(cells, places.claim(anchor(FINDING, subject)) if subject else "")


def _cell(column: Column, english: str, text: str, subject: str) -> Cell:
    if column.source == ON_SITE and not text:
        return Cell("", box=True)
    if column.name == "verdicts":
        return Cell(text, tone=_tone(english))
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
    return Label(words.say(told["label"]), place, at, words.say(text[:1].upper() + text[1:]))
