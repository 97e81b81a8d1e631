"""Parts out of rows whose cells were met before: a sheet has many rows and few different texts.

What one field makes of its cells is read once, by `building.build`, and kept. Whatever is wrong,
or spans several fields, is left to the thorough way, which also says what is wrong.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from catalogue.building import build
from catalogue.cells import columns_for, from_cells
from catalogue.parts import KINDS, Part

#: Different texts of a field that are kept; a column of notes has no two alike.
_MOST: Final = 20_000
#: Columns that say something only together, or are checked against each other.
_TOGETHER: Final = frozenset({"area", "awg"})


class Quick:
    """Makes parts of cells by what the same cells made before."""

    def __init__(self) -> None:
        self._known: dict[tuple[str, str], dict[str, tuple[Any, Mapping[str, str]] | None]] = {}
        self._plain = {
            kind: frozenset(
                column
                for column in columns_for(kind)
                if "." not in column and column not in _TOGETHER
            )
            for kind in KINDS
        }

    def part(self, part_id: str, kind: str, cells: Mapping[str, str]) -> Part | None:
        """The part; None where the thorough way has to look."""
        plain = self._plain.get(kind)
        if plain is None or not part_id.isprintable() or not 0 < len(part_id) <= 100:
            return None
        if part_id != part_id.strip() or not cells.keys() <= plain:
            return None
        values: dict[str, Any] = {}
        written: dict[str, str] = {}
        for column, text in cells.items():
            known = self._known.setdefault((kind, column), {})
            try:
                found = known[text]
            except KeyError:
                found = _read(kind, column, text)
                if len(known) < _MOST:
                    known[text] = found
            if found is None:
                return None
            values[column] = found[0]
            written |= found[1]
        return KINDS[kind](id=part_id, kind=kind, origin="shop", written=written, **values)


def _read(kind: str, column: str, text: str) -> tuple[Any, Mapping[str, str]] | None:
    """What one column makes of a text: value and texts as written; None if anything is wrong."""
    stated, problems = from_cells(kind, {column: text})
    part, more = build("x", kind, stated)
    if problems or more or part is None:
        return None
    return getattr(part, column), part.written
