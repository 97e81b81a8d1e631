"""A time-current curve from a CSV file, one point a row, into a part of the shop.

Columns: boundary (fastest, slowest or average), current, time. Units stand in the cells, or in
the heading: "current [kA]". Every problem of the file is found, each with its row and column.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, Final, NamedTuple

from catalogue.checks import problems_of
from catalogue.curve_checks import LARGEST_TOLERANCE, curve_problems, point_problems
from catalogue.errors import CatalogueError
from catalogue.layout import BETWEEN, described
from catalogue.near_miss import hint_of
from catalogue.parts import Part
from catalogue.problems import FieldProblem, SheetError, SheetProblem
from catalogue.quantities import QuantityError, parse
from catalogue.records import Curve
from catalogue.sheet import unguarded
from catalogue.store import open_catalogue

_COLUMNS: Final = ("boundary", "current", "time")
_UNIT: Final = r"\s*\[(.*)\]|\s*\((.*)\)|\s+in\s+(\S+)|\s+(\S+)"
_HEADING: Final = re.compile(rf"(boundary|current|time)(?:{_UNIT})?", re.IGNORECASE)
#: The largest file read; a traced curve has some hundred points.
_LARGEST: Final = 1_000_000
_BARE: Final = re.compile(r"\s*[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?\s*")


class _Row(NamedTuple):
    """One point: the row it stands in, its side as an attribute of Curve, sizes and texts."""

    number: int
    side: str
    current: float
    time: float
    texts: tuple[str, str]


def with_curve(
    catalogue: str | None, part_id: str, path: str, tolerance: str | None, between: str | None
) -> Part:
    """The shop's part `part_id` with the curve in the CSV file `path`; nothing is written.

    tolerance -- of an average melting curve, as a share of its current: "10 %"
    between   -- "line" or "gates"; None: line
    Raises SheetError with all problems of all rows, CatalogueError, OSError.
    """
    with open_catalogue(catalogue) as parts:
        part = parts.get(part_id)
        near = "" if part else parts.near(part_id)
    if part is None:
        hint = f"; did you mean {near!r}?" if near else ""
        raise CatalogueError(f"there is no part {part_id[:100]!r}{hint}")
    if part.kind not in ("fuse", "breaker"):
        raise CatalogueError(f"{part_id!r} is a {part.kind}; a fuse or a breaker has a curve")
    if part.origin == "generic":
        raise CatalogueError(f"{part_id!r} is generic and stays as it is; add a part of your own")
    if between not in (None, *BETWEEN):
        raise CatalogueError(f"{between!r} is not what lies between points: {' or '.join(BETWEEN)}")
    curve, written = read_curve(_text(path), part, _share(tolerance), between == BETWEEN[1])
    if tolerance is not None:
        written["curve.tolerance"] = tolerance.strip()
    kept = {name: said for name, said in part.written.items() if not name.startswith("curve.")}
    values: dict[str, Any] = {"curve": curve, "written": kept | written}
    if part.status == "reviewed":
        values |= {"status": "draft", "reviewed": None, "reviewed_by": None}
    made = replace(part, **values)
    for problem in problems_of(made):
        raise CatalogueError(f"{part_id!r} is refused: {problem.what}")
    return made


def _share(tolerance: str | None) -> float | None:
    if tolerance is None:
        return None
    try:
        share = parse(tolerance, "factor")
    except QuantityError as error:
        raise CatalogueError(f"tolerance: {error.message}; {error.hint}") from error
    if not 0 < share <= LARGEST_TOLERANCE:
        what = f"tolerance must be above 0 and at most {LARGEST_TOLERANCE:.0%}"
        raise CatalogueError(f"{what}, not {tolerance!r}")
    return share


def _text(path: str) -> str:
    """Raises CatalogueError if the file is too large, SheetError if it is not UTF-8."""
    data = Path(path).read_bytes()
    if len(data) > _LARGEST:
        raise CatalogueError(f"{path!r} is larger than {_LARGEST // 1_000_000} MB")
    try:
        return data.decode("utf-8").removeprefix("\ufeff")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise SheetError((SheetProblem(line, "", "this is not UTF-8"),)) from error


def read_curve(
    text: str, part: Part, tolerance: float | None, gates: bool
) -> tuple[Curve, dict[str, str]]:
    """The curve in the text of a CSV file, and its quantities as written.

    Raises SheetError with every problem of every row.
    """
    (field,) = (field for field in described(part.kind) if field.metadata["shape"] == "curve")
    names = {side: said for said, side in field.metadata["columns"]}
    problems: list[SheetProblem] = []
    rows = _rows(text, names, problems)
    of = {side: [row for row in rows if row.side == side] for side in names}
    points = {side: tuple((row.current, row.time) for row in of[side]) for side in names}
    curve = Curve(**points, gates=gates, tolerance=tolerance)
    rating = getattr(part, "rated_current", None)
    # Without the rows that cannot be read, sides may seem to cross that do not.
    look = point_problems if problems else curve_problems
    problems.extend(_placed(problem, names, of) for problem in look(curve, names, rating))
    if problems:
        raise SheetError(tuple(sorted(problems, key=lambda problem: problem.row)))
    written = {
        f"curve.{names[side]}.{place}.{column}": row.texts[which]
        for side in names
        for place, row in enumerate(of[side])
        for which, column in enumerate(("current", "time"))
    }
    return curve, written


def _placed(
    problem: FieldProblem, names: Mapping[str, str], of: Mapping[str, list[_Row]]
) -> SheetProblem:
    """A problem of the curve ("curve.min_melt.3.time") at the row and column it came from."""
    steps = [*problem.path.split("."), "", "", ""]
    side = next((side for side, said in names.items() if said == steps[1]), "")
    row = of[side][int(steps[2])].number if side and steps[2].isdigit() else 0
    hint = "--tolerance '10 %'" if steps[1] == "tolerance" else problem.hint
    return SheetProblem(row, steps[3], problem.what, hint)


def _rows(text: str, names: Mapping[str, str], problems: list[SheetProblem]) -> list[_Row]:
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    found: list[_Row] = []
    heading: dict[str, tuple[int, str]] | None = None
    try:
        for number, cells in enumerate(reader, start=1):
            cells = [unguarded(cell).strip() for cell in cells]
            if not any(cells):
                continue
            if heading is None:
                heading = _heading(number, cells, problems)
                if len(heading) < len(_COLUMNS):
                    return found
            elif row := _point(number, cells, heading, names, problems):
                found.append(row)
    except csv.Error as error:
        problems.append(SheetProblem(reader.line_num, "", f"this is no CSV: {error}"))
    if heading is None:
        problems.append(SheetProblem(0, "", "it is empty", "the first row names the columns"))
    return found


def _heading(
    number: int, cells: list[str], problems: list[SheetProblem]
) -> dict[str, tuple[int, str]]:
    """Each column's place and unit; what it is not is noted."""
    found: dict[str, tuple[int, str]] = {}
    for place, cell in enumerate(cells):
        match = _HEADING.fullmatch(cell)
        name = match[1].lower() if match else ""
        if match is None:
            hint = hint_of(cell, _COLUMNS) or f"columns are {', '.join(_COLUMNS)}"
            problems.append(SheetProblem(number, cell[:40], f"{cell[:40]!r} is no column", hint))
        elif name in found:
            problems.append(SheetProblem(number, name, f"column {name!r} stands twice"))
        else:
            found[name] = (place, next((unit for unit in match.groups()[1:] if unit), ""))
    for name in _COLUMNS:
        if name not in found:
            problems.append(SheetProblem(number, name, f"there is no column {name!r}"))
    return found


def _point(
    number: int,
    cells: list[str],
    heading: Mapping[str, tuple[int, str]],
    names: Mapping[str, str],
    problems: list[SheetProblem],
) -> _Row | None:
    before = len(problems)
    if len(cells) > len(heading):
        problems.append(SheetProblem(number, "", "there are more cells than columns"))
    stated = {name: cells[at] if at < len(cells) else "" for name, (at, _) in heading.items()}
    side = _side(number, stated["boundary"].lower(), names, problems)
    sizes: list[float] = []
    texts: list[str] = []
    for name in ("current", "time"):
        said, unit = stated[name], heading[name][1]
        texts.append(f"{said} {unit}" if unit and _BARE.fullmatch(said) else said)
        try:
            sizes.append(parse(texts[-1], name))
            if sizes[-1] <= 0:
                problems.append(SheetProblem(number, name, f"{name} must be positive"))
        except QuantityError as error:
            problems.append(SheetProblem(number, name, error.message, error.hint))
    if len(problems) > before:
        return None
    return _Row(number, side, sizes[0], sizes[1], (texts[0], texts[1]))


def _side(
    number: int, said: str, names: Mapping[str, str], problems: list[SheetProblem]
) -> str:
    """The side a row belongs to, by the word of the CSV or that of the part's field."""
    words = {name: side for side, name in names.items()} | {
        "fastest": "fastest", "slowest": "slowest",
    }  # fmt: skip
    if "average_melt" in names:
        words["average"] = "average_melt"
    if said not in words:
        usual = [word for word in ("fastest", "slowest", "average") if word in words]
        hint = hint_of(said, words) if said else ""
        what = f"{said[:40]!r} is no boundary"
        problems.append(
            SheetProblem(number, "boundary", what, hint or f"one of: {', '.join(usual)}")
        )
        return ""
    return words[said]
