"""Tables in plain columns and in markdown; which rows they have is for others.

Markdown goes through tabulate. Plain columns are drawn here: they must keep to a width, and a
check should not pay tabulate's import, longer than the sums of a small system.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

Rows = Sequence[Sequence[str]]

_GAP = "  "
#: Columns are not wrapped narrower than this.
_LEAST = 12
_PIECES = re.compile(r"[^/ -]*[/ -]?")


def columns(rows: Rows, headers: Sequence[str], align: str, width: int) -> list[str]:
    """The rows under their headers in lines no wider than `width`; wide left columns are wrapped.

    align -- a letter a column: l left, r right
    """
    widths = _widths([headers, *rows], align, width - len(_GAP) * (len(headers) - 1))
    rule = [["-" * each for each in widths]]
    return [line for row in (headers, *rule, *rows) for line in _row_lines(row, widths, align)]


def _widths(rows: Rows, align: str, room: int) -> list[int]:
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    soft = [number for number, side in enumerate(align) if side == "l"]
    while sum(widths) > room and soft:
        widest = max(soft, key=lambda number: widths[number])
        if widths[widest] <= _LEAST:
            break
        widths[widest] = max(_LEAST, widths[widest] - (sum(widths) - room))
    return widths


def _row_lines(row: Sequence[str], widths: Sequence[int], align: str) -> Iterator[str]:
    cells = [_broken(cell, room) for cell, room in zip(row, widths, strict=True)]
    for number in range(max(map(len, cells))):
        pieces = [cell[number] if number < len(cell) else "" for cell in cells]
        padded = (
            piece.rjust(room) if side == "r" else piece.ljust(room)
            for piece, room, side in zip(pieces, widths, align, strict=True)
        )
        yield _GAP.join(padded).rstrip()


def _broken(cell: str, room: int) -> list[str]:
    """A cell in lines of `room`; names are broken after their slashes, blanks and hyphens."""
    if len(cell) <= room:
        return [cell]
    lines = [""]
    for piece in _PIECES.findall(cell):
        while len(lines[-1]) + len(piece.rstrip()) > room:
            if not lines[-1]:
                lines[-1], piece = piece[:room], piece[room:]
            lines.append("")
        lines[-1] += piece
    return [line.rstrip() for line in lines]


def markdown_table(rows: Rows, headers: Sequence[str], align: str) -> str:
    """The rows as a markdown table; nothing in them is taken for markup or for a number."""
    from tabulate import tabulate

    sides = {"l": "left", "r": "right"}
    cells = [[markdown_safe(cell) for cell in row] for row in rows]
    return tabulate(
        cells,
        headers=headers,
        tablefmt="github",
        disable_numparse=True,
        colalign=[sides[letter] for letter in align] if rows else None,
    )


def markdown_safe(text: str) -> str:
    """The text for a markdown cell or line: nothing in it is taken for markup or HTML."""
    for sign in "\\`*_[]#|":
        text = text.replace(sign, "\\" + sign)
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
