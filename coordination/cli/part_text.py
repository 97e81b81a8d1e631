"""How `fusewright parts` prints parts: a table of many, all fields of one."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from catalogue.cells import to_cells
from catalogue.parts import Part
from coordination.cli.history_text import cut
from coordination.report.wording import clean

_ABOUT: Final = ("status", "reviewed", "reviewed_by", "successor", "document", "page", "notes")
#: Signs of a cell that are shown, in a table and of one part: curves are long.
_MOST: Final = 200
_MOST_OF_ONE: Final = 20_000
_ORIGINS: Final = {
    "generic": "generic part, made from published minimums",
    "shop": "the shop's own catalogue",
}


def part_table(parts: Sequence[Part]) -> str:
    """One line a part: id, kind, status, where from, description."""
    if not parts:
        return "no part found\n"
    rows = [
        (part.id, part.kind, part.status or "no status", part.origin, part.description or "")
        for part in parts
    ]
    widths = [max(len(row[place]) for row in rows) for place in range(4)]
    lines = (
        "  ".join([*(cell.ljust(width) for cell, width in zip(row, widths, strict=False)), row[4]])
        for row in (tuple(cut(cell, _MOST) for cell in row) for row in rows)
    )
    return "".join(f"{line.rstrip()}\n" for line in lines)


def part_text(part: Part, shadows: bool) -> str:
    """Every stated field of a part, as it was written, then where the figures come from."""
    cells = {"kind": part.kind, **to_cells(part)}
    origin = _ORIGINS.get(part.origin, part.origin)
    cells["origin"] = f"{origin}; it shadows a generic part" if shadows else origin
    if "resistance.assumed" in part.written:
        cells["resistance"] += f" (assumed band {part.written['resistance.assumed']})"
    cells.setdefault("status", "none stated")
    order = [name for name in cells if name not in (*_ABOUT, "origin")]
    order += [name for name in (*_ABOUT, "origin") if name in cells]
    width = max(map(len, order))
    lines = [clean(part.id)]
    for name in order:
        cell = cut(cells[name], _MOST_OF_ONE)
        lines.append(f"  {name.ljust(width)}  {_listed(cell, name, width)}")
    return "\n".join(lines) + "\n"


def _listed(cell: str, name: str, width: int) -> str:
    """A list under one another, a row a line; sentences of notes too."""
    if name in ("description", "document", "page"):
        return cell
    return cell.replace("; ", "\n" + " " * (width + 4))
