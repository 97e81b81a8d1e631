"""Parts out of the rows of a sheet: one part a row, or one point a row, with all that is wrong.

Rows of one id make one part where a column holds one quantity of a list (`leaves`): each such row
adds a row to the list, and whatever else it states must be what the first one stated.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from typing import Any, Final, NamedTuple

from catalogue.building import build
from catalogue.cells import columns_for, from_cells
from catalogue.near_miss import hint_of
from catalogue.parts import KINDS, Part
from catalogue.problems import FieldProblem, SheetError, SheetProblem
from catalogue.sheets.grid import Grid
from catalogue.sheets.guard import unguarded
from catalogue.sheets.heading import Column, read_heading
from catalogue.sheets.leaves import leaves, state
from catalogue.sheets.mapping import SheetMap
from catalogue.sheets.quick import Quick

#: Problems listed of one sheet; more than anybody mends in one go.
MOST: Final = 200
_NUMBER: Final = r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"
_BARE: Final = re.compile(rf"\s*(?:{_NUMBER}|[1-4]/0)\s*", re.ASCII)
_BARE_BAND: Final = re.compile(rf"\s*({_NUMBER}) to ({_NUMBER})\s*", re.ASCII)
_BLANK: Final = " \t\r\n"


class Row(NamedTuple):
    """One row that says something: its number, and its cells by column."""

    number: int
    cells: dict[Column, str]


def parts_of(grid: Grid, using: SheetMap | None = None) -> Iterator[Part]:
    """The parts of a sheet, in its order, while it is read.

    Raises SheetError at the end, with every problem of every row; parts given before are void.
    """
    reader = _Reader(grid.name, using or SheetMap())
    try:
        yield from reader.parts(grid.rows, using)
    except SheetError as error:
        reader.problems.extend(error.problems)
    reader.raise_if_any()


class _Reader:
    """Reads one sheet, noting what is wrong."""

    def __init__(self, sheet: str, using: SheetMap) -> None:
        self.sheet, self.using = sheet, using
        self.problems: list[SheetProblem] = []
        self.seen: dict[str, int] = {}
        self.heading: tuple[Column, ...] = ()
        # A workbook marks its texts as texts; an apostrophe there is part of the text.
        self.plain = str if sheet else unguarded

    def raise_if_any(self) -> None:
        if not self.problems:
            return
        left = len(self.problems) - MOST
        more = [SheetProblem(0, "", f"{left} more problems are not listed")] if left > 0 else []
        listed = (*self.problems[:MOST], *more)
        raise SheetError(tuple(replace(problem, sheet=self.sheet) for problem in listed))

    def parts(
        self, rows: Iterator[tuple[int, list[str]]], using: SheetMap | None
    ) -> Iterator[Part]:
        heading = None
        for number, cells in rows:
            if number >= self.using.heading and any(cells):
                heading = read_heading(number, cells, using, self.problems)
                break
        if heading is None:
            hint = "the first row names the columns"
            self.problems.append(SheetProblem(0, "", "it is empty", hint))
        elif not self.problems:
            yield from self._body(heading, rows)

    def _body(
        self, heading: tuple[Column, ...], rows: Iterator[tuple[int, list[str]]]
    ) -> Iterator[Part]:
        self.heading = heading
        repeated = frozenset(column for column in heading if _repeated(column.name))
        if repeated:
            found = (row for cells in rows if (row := self._row(*cells)) is not None)
            for together in self._grouped(found, repeated):
                if (part := self._part(together, repeated)) is not None:
                    yield part
            return
        plain = not any(
            column.unit or column.at or column.more or _is_leaf(column.name) for column in heading
        )
        plain = plain and not self.using.constant
        quick = Quick(heading, guarded=not self.sheet) if plain else None
        for number, cells in rows:
            part = quick.part(cells) if quick is not None else None
            if part is None and (row := self._row(number, cells)) is not None:
                part = self._part([row], repeated)
            if part is not None and self._is_new(part, number):
                yield part

    def _row(self, number: int, cells: list[str]) -> Row | None:
        """The row, if it says anything; surplus cells are noted."""
        if not any(cell.strip() for cell in cells):
            return None
        places = [place for column in self.heading for place in (column.place, *column.more)]
        width = 1 + max(places, default=0)
        if len(cells) > width and not self.using.columns and any(cells[width:]):
            self.problems.append(SheetProblem(number, "", "there are more cells than columns"))
            return None
        plain = self.plain
        stated = {
            column: plain("".join(cells[column.place : column.place + 1 + len(column.more)]))
            for column in self.heading
            if column.place < len(cells) and cells[column.place]
        }
        return Row(number, stated)

    def _is_new(self, part: Part, number: int) -> bool:
        """Whether no row before states a part of that id."""
        before = self.seen.setdefault(part.id, number)
        if before == number:
            return True
        what = f"{part.id!r} stands in row {before} too"
        self._say(Row(number, {}), "id", what)
        return False

    def _say(self, row: Row, name: str, what: str, hint: str = "") -> None:
        """Note what is wrong in a row, at the column of that name."""
        column = next((each for each in self.heading if each.name == name), None)
        title, letter = (column.title, column.letter) if column else (name, "")
        self.problems.append(SheetProblem(row.number, title, what, hint, letter=letter))

    def _grouped(self, rows: Iterator[Row], repeated: frozenset[Column]) -> list[list[Row]]:
        """The rows of each id; a row with nothing but points goes on with the one before it."""
        groups: dict[str, list[Row]] = {}
        last = ""
        for row in rows:
            named = next((t for c, t in row.cells.items() if c.name == "id"), "").strip(_BLANK)
            if named or any(column not in repeated for column in row.cells) or not last:
                last = named
            groups.setdefault(last, []).append(row)
        return list(groups.values())

    def _part(self, rows: list[Row], repeated: frozenset[Column]) -> Part | None:
        """The part that rows of one id state; None after noting what is wrong."""
        before = len(self.problems)
        single = self._single(rows, repeated)
        texts = {column.name: text for column, (_, text) in single.items() if not column.at}
        for name, text in self.using.constant.items():
            texts.setdefault(name, text)
        part_id, kind = texts.pop("id", ""), texts.pop("kind", "").strip(_BLANK)
        if kind not in KINDS:
            hint = (hint_of(kind, KINDS) if kind else "") or f"one of: {', '.join(KINDS)}"
            self._say(rows[0], "kind", f"{kind[:40]!r} is no kind of part", hint)
            return None
        for row, column in self._foreign(kind, rows):
            self._say(row, column.name, f"a {kind} has no {column.name}")
        whole = {name: text for name, text in texts.items() if name not in leaves(kind)}
        stated, found = from_cells(kind, whole)
        places = self._state_leaves(kind, rows, single, repeated, stated)
        part, more = build(part_id, kind, stated)
        for problem in (*found, *more):
            self._place(problem, rows[0], places)
        return part if len(self.problems) == before else None

    def _single(
        self, rows: list[Row], repeated: frozenset[Column]
    ) -> dict[Column, tuple[Row, str]]:
        """What is stated once for the part, from the first row that states it."""
        found: dict[Column, tuple[Row, str]] = {}
        for row in rows:
            for column, text in row.cells.items():
                if column in repeated or not text.strip(_BLANK):
                    continue
                first, said = found.setdefault(column, (row, _with_unit(text, column.unit)))
                if said != _with_unit(text, column.unit):
                    what = f"{column.name} is {text[:40]!r} here, {said[:40]!r} in row "
                    self._say(row, column.name, f"{what}{first.number}")
        return found

    def _foreign(self, kind: str, rows: list[Row]) -> Iterator[tuple[Row, Column]]:
        """Cells of columns that this kind has not."""
        own = _own(kind)
        for row in rows:
            for column, text in row.cells.items():
                if column.name not in own and text.strip(_BLANK):
                    yield row, column

    def _state_leaves(
        self,
        kind: str,
        rows: list[Row],
        single: Mapping[Column, tuple[Row, str]],
        repeated: frozenset[Column],
        stated: dict[str, Any],
    ) -> dict[str, tuple[Row, Column]]:
        """Put the quantities of lists and pairs into `stated`; where each path came from."""
        own, places = leaves(kind), {}
        for column, (row, text) in single.items():
            if column.at and column.name in columns_for(kind):
                ratings = stated.setdefault(column.name, [])
                places[f"{column.name}.{len(ratings)}"] = (row, column)
                ratings.append({"voltage": column.at, "current": text})
            elif column.name in own:
                places[state(stated, own[column.name], text, 0)] = (row, column)
        counts: dict[tuple[str, ...], int] = {}
        for row in rows:
            here: dict[tuple[str, ...], int] = {}
            for column, text in row.cells.items():
                if column not in repeated or column.name not in own or not text.strip(_BLANK):
                    continue
                leaf = own[column.name]
                of = (leaf.field, *leaf.way[:-1])
                if of not in here:
                    here[of] = counts[of] = counts.get(of, -1) + 1
                path = state(stated, leaf, _with_unit(text, column.unit), here[of])
                places[path] = places.setdefault(path.rpartition(".")[0], (row, column))
                places[path] = (row, column)
        return places

    def _place(
        self, problem: FieldProblem, first: Row, places: Mapping[str, tuple[Row, Column]]
    ) -> None:
        """Note a problem of a field at the row and column it came from."""
        path = problem.path
        while path and path not in places:
            path = path.rpartition(".")[0]
        if path:
            row, column = places[path]
            self._say(row, column.name, problem.what, problem.hint)
        else:
            self._say(first, _column_in(first, problem.path), problem.what, problem.hint)


def _column_in(row: Row, path: str) -> str:
    """The column of a row whose name the path begins with: "curve.min_melt" of its point 3."""
    names = [column.name for column in row.cells]
    steps = path.split(".")
    for length in range(len(steps), 0, -1):
        if (name := ".".join(steps[:length])) in names:
            return name
    return ".".join(steps[:2]) if steps[0] in ("curve", "discharge") else steps[0]


@cache
def _own(kind: str) -> frozenset[str]:
    return frozenset({"id", "kind", *columns_for(kind), *leaves(kind)})


def _is_leaf(name: str) -> bool:
    return any(name in leaves(kind) for kind in KINDS)


def _repeated(name: str) -> bool:
    """Whether a column holds one quantity of a row of a list."""
    return any(name in leaves(kind) and leaves(kind)[name].repeated for kind in KINDS)


def _with_unit(text: str, unit: str) -> str:
    """The text of a cell, with the unit of its heading where it has none."""
    if not unit:
        return text
    if _BARE.fullmatch(text):
        return f"{text.strip()} {unit}"
    band = _BARE_BAND.fullmatch(text)
    return f"{band[1]} {unit} to {band[2]} {unit}" if band else text
