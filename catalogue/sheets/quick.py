"""Parts out of rows whose cells were met before: a sheet has many rows and few different texts.

What one field makes of its cell is read once, by `building.build`, and kept. Whatever is wrong, or
says something only together with another field, is left to the thorough way, which also says what
is wrong.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final, NamedTuple

from catalogue.building import build
from catalogue.cells import columns_for, from_cells
from catalogue.parts import KINDS, Part
from catalogue.sheets.guard import unguarded
from catalogue.sheets.heading import Column

#: Different texts of a field that are kept; a column of notes has no two alike.
_MOST: Final = 20_000
#: What a text of a field became: value and texts as written; None: look thoroughly.
Known = dict[str, tuple[Any, Mapping[str, str]] | None]


class _Plan(NamedTuple):
    """Of one kind: the columns that it reads, with what was read, and those that must be empty."""

    make: Any
    read: tuple[tuple[int, str, Known], ...]
    empty: tuple[int, ...]


class Quick:
    """Makes parts of rows by what the same cells made before; for sheets with plain columns."""

    def __init__(self, heading: Sequence[Column], *, guarded: bool) -> None:
        """guarded -- whether an apostrophe before a formula is not part of the text (CSV)"""
        place = {column.name: column.place for column in heading}
        self._id, self._kind = place.get("id", -1), place.get("kind", -1)
        self._guarded = guarded
        self._width = 1 + max(place.values())
        self._plans = {kind: _plan(kind, place) for kind in KINDS}

    def part(self, cells: Sequence[str]) -> Part | None:
        """The part; None where the thorough way has to look."""
        if len(cells) != self._width or self._id < 0 or self._kind < 0:
            return None
        plan = self._plans.get(cells[self._kind])
        part_id = cells[self._id]
        if plan is None or not _plainly_an_id(part_id):
            return None
        for place in plan.empty:
            if cells[place]:
                return None
        values: dict[str, Any] = {}
        written: dict[str, str] = {}
        for place, column, known in plan.read:
            text = cells[place]
            if not text:
                continue
            found = known[text] if text in known else self._read(plan, column, text, known)
            if found is None:
                return None
            values[column] = found[0]
            written.update(found[1])
        kind = cells[self._kind]
        part: Part = plan.make(id=part_id, kind=kind, origin="shop", written=written, **values)
        return part

    def _read(self, plan: _Plan, column: str, text: str, known: Known) -> Any:
        """What one column makes of a text, kept for the next row; None if anything is wrong."""
        plain = unguarded(text) if self._guarded else text
        kind = next(kind for kind, each in self._plans.items() if each is plan)
        stated, problems = from_cells(kind, {column: plain})
        part, more = build("x", kind, stated)
        right = part is not None and not problems and not more and bool(stated)
        found = (getattr(part, column), part.written) if part is not None and right else None
        if len(known) < _MOST:
            known[text] = found
        return found


def _plan(kind: str, place: Mapping[str, int]) -> _Plan:
    """What a kind reads alone. A gauge makes an area: beside one, both are read thoroughly."""
    plain = {column for column in columns_for(kind) if "." not in column} - {"awg"}
    if "awg" in place:
        plain.discard("area")
    read = tuple((at, name, Known()) for name, at in place.items() if name in plain)
    empty = tuple(
        at for name, at in place.items() if name not in plain and name not in ("id", "kind")
    )
    return _Plan(KINDS[kind], read, empty)


def _plainly_an_id(text: str) -> bool:
    """Whether it is an id, and no cell that was guarded against formulas."""
    return 0 < len(text) <= 100 and text.isprintable() and text == text.strip() and text[0] != "'"
