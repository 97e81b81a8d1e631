"""What a schedule is: titled columns, and rows of text about one subject each."""

from __future__ import annotations

from typing import NamedTuple


class Column(NamedTuple):
    """One column.

    name    -- heading; a unit stands in the cells, beside each number
    purpose -- what the reader uses it for, one phrase
    source  -- where its cells come from: "system file", "parts", "study", "findings", or
               "on site" for a box to fill in by hand
    """

    name: str
    purpose: str
    source: str


class Schedule(NamedTuple):
    """One sheet; nothing in it is escaped for any output, but names are made printable.

    name     -- "devices", "cables", ...; title -- for people
    rows     -- a cell a column; an empty cell is what nobody knows or what is filled in on site
    subjects -- a row's subject, by its name in the system file; "" where it is about no one thing
    """

    name: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    subjects: tuple[str, ...] = ()
