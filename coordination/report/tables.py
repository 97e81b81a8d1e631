"""Tables of plain columns or of markdown, made by tabulate; which rows they have is for others."""

from __future__ import annotations

import re
from collections.abc import Sequence

#: Columns are not wrapped narrower than this.
_LEAST = 12
_PIECES = re.compile(r"[^/ -]*[/ -]?")


def table(
    rows: Sequence[Sequence[str]],
    headers: Sequence[str],
    align: str = "",
    *,
    markdown: bool = False,
) -> str:
    """The rows under their headers; `align` has a letter a column: l left, r right.

    Texts are taken as they are: nothing is read as a number, nothing reformatted.
    """
    from tabulate import tabulate

    sides = {"l": "left", "r": "right"}
    return tabulate(
        rows,
        headers=headers,
        tablefmt="github" if markdown else "simple",
        disable_numparse=True,
        colalign=[sides[letter] for letter in align] if rows and align else None,
    )


def fitted(rows: Sequence[Sequence[str]], headers: Sequence[str], align: str, width: int) -> str:
    """A table of plain columns no wider than `width`: wide left-aligned columns are wrapped."""
    widths = [max(map(len, column)) for column in zip(headers, *rows, strict=True)]
    soft = [number for number, side in enumerate(align) if side == "l"]
    spare = width - 2 * (len(widths) - 1)
    while sum(widths) > spare and soft:
        widest = max(soft, key=lambda number: widths[number])
        if widths[widest] <= _LEAST:
            break
        widths[widest] = max(_LEAST, widths[widest] - (sum(widths) - spare))
    cells = [
        ["\n".join(_broken(cell, room)) for cell, room in zip(row, widths, strict=True)]
        for row in rows
    ]
    return "\n".join(line.rstrip() for line in table(cells, headers, align).splitlines())


def _broken(cell: str, room: int) -> list[str]:
    """A cell in lines of `room`; names are broken after their slashes, blanks and hyphens."""
    lines = [""]
    for piece in _PIECES.findall(cell) if len(cell) > room else [cell]:
        while len(lines[-1]) + len(piece.rstrip()) > room:
            if lines[-1]:
                lines.append("")
            else:
                lines[-1], piece = piece[:room], piece[room:]
                lines.append("")
        lines[-1] += piece
    return lines


def markdown_safe(text: str) -> str:
    """The text for a markdown cell or line: nothing in it is taken for markup or HTML."""
    for sign in "\\`*_[]#|":
        text = text.replace(sign, "\\" + sign)
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
