"""Tables before they are set: cells with their links, and wide ones taken apart.

Knows nothing of what stands in them.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

#: A cell that begins like a figure is set to the right; so is one that says it is not known.
_FIGURE = re.compile(r"[-−≤≥<>~]? ?\d+(?:[.,]\d+)?(?:[ \u00a0]?[^\s\d.,-]\S{0,6})?")

#: Letters from which a text wants a broad column.
_LONG = 24

#: Letters up to which a column may be one of figures.
_SHORT = 16

#: Letters that a box to write in is as wide as.
_BOX = 13


class Cell(NamedTuple):
    """What stands in a cell.

    link -- the place ("#...") that its text leads to; note -- in small below it
    box  -- empty, to be filled in by hand
    tone -- a verdict, in whose colour it is set
    """

    text: str
    link: str = ""
    note: str = ""
    box: bool = False
    tone: str = ""

    @property
    def plain(self) -> bool:
        """Whether the text is all there is to it."""
        return not (self.link or self.note or self.box or self.tone)


class Head(NamedTuple):
    """A column's heading; `look`: "n" for figures, set to the right, "long" for sentences."""

    text: str
    look: str = ""


class Row(NamedTuple):
    """Cells, the first of which names the row; `place`: the row's id, if it has one."""

    cells: tuple[Cell, ...]
    place: str = ""


class Table(NamedTuple):
    """A table; `caption` says what it shows."""

    caption: str
    heads: tuple[Head, ...]
    rows: tuple[Row, ...]


def table(caption: str, heads: Sequence[str], rows: Sequence[Row]) -> Table:
    """The table, its columns of figures found by what stands in them."""
    columns = zip(*(row.cells for row in rows), strict=True) if rows else ((),) * len(heads)
    looks = [_look([cell.text for cell in column], first=not number)
             for number, column in enumerate(columns)]  # fmt: skip
    return Table(caption, tuple(map(Head, heads, looks)), tuple(rows))


def _look(texts: Sequence[str], first: bool) -> str:
    if not first and figures(texts):
        return "n"
    return "long" if max(map(len, texts), default=0) > _LONG else ""


def figures(texts: Sequence[str]) -> bool:
    """Whether most of what stands in a column are figures with their units, and all is short."""
    filled = [text for text in texts if text]
    if max(map(len, filled), default=0) > _SHORT:
        return False
    return 2 * sum(bool(_FIGURE.fullmatch(text)) for text in filled) > len(filled)


def rows_of(cells: Sequence[Sequence[str]]) -> tuple[Row, ...]:
    """Plain texts as rows."""
    return tuple(Row(tuple(Cell(text) for text in row)) for row in cells)


def parts_of(whole: Table, room: int) -> tuple[Table, ...]:
    """A wide table as several no wider than about `room` letters, each with the first column."""
    widths = [_width(whole, number) for number in range(len(whole.heads))]
    groups: list[list[int]] = [[]]
    used = widths[0]
    for number, width in enumerate(widths[1:], start=1):
        if groups[-1] and used + width > room:
            groups.append([])
            used = widths[0]
        groups[-1].append(number)
        used += width
    if len(groups) == 1:
        return (whole,)
    return tuple(_part(whole, group, first=not number) for number, group in enumerate(groups))


def _part(whole: Table, columns: Sequence[int], first: bool) -> Table:
    kept = (0, *columns)
    rows = (
        Row(tuple(row.cells[number] for number in kept), row.place if first else "")
        for row in whole.rows
    )
    return Table(whole.caption, tuple(whole.heads[number] for number in kept), tuple(rows))


def _width(whole: Table, number: int) -> int:
    """Letters that a column wants: its longest word, or what its text fills in three lines."""
    if any(row.cells[number].box for row in whole.rows):
        return _BOX
    texts = [whole.heads[number].text, *(row.cells[number].text for row in whole.rows)]
    words = max((len(word) for text in texts for word in text.split()), default=0)
    return max(6, words, max(map(len, texts), default=0) // 3) + 2
