"""What the columns of a sheet are: by their headings as they stand, or by a map.

    rated_current       Rated current [A]       Rated current (A)       resistance.min in mΩ
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final, NamedTuple

from catalogue.near_miss import hint_of
from catalogue.problems import SheetProblem
from catalogue.quantities import QuantityError, parse
from catalogue.sheets.grid import letter_of
from catalogue.sheets.guard import unguarded
from catalogue.sheets.leaves import dimensions, known_columns
from catalogue.sheets.mapping import SheetMap, Target

_WITH_UNIT: Final = re.compile(r"(.*?)\s*(?:\[(.*)\]|\((.*)\)|\s+in\s+(\S+))", re.DOTALL)
#: The heading of a column that goes on with the texts of another: "notes+2".
_CONTINUED: Final = re.compile(r"(\S+)\+([1-9]\d?\d?)")
#: Columns whose lists take a bare number for every column of the sheet that states a voltage.
_AT: Final = "interrupt_ratings"


class Column(NamedTuple):
    """One column of a sheet: where it stands, its heading there, and what it holds.

    more -- places of the columns that its texts go on in
    """

    place: int
    title: str
    name: str
    unit: str = ""
    at: str = ""
    more: tuple[int, ...] = ()

    @property
    def letter(self) -> str:
        return letter_of(self.place)


def read_heading(
    number: int, cells: Sequence[str], using: SheetMap | None, problems: list[SheetProblem]
) -> tuple[Column, ...]:
    """The columns of a sheet; what is wrong with them is noted.

    number -- the row in which the heading stands
    """
    titles = [unguarded(cell).strip() for cell in cells]
    while titles and not titles[-1]:
        titles.pop()
    found: list[Column] = []
    for place, title in enumerate(titles):
        if using is None and (longer := _CONTINUED.fullmatch(title)):
            problems.extend(_continuation(number, place, longer, found))
            continue
        target = _by_map(title, using) if using else target_of(title)
        if isinstance(target, str):
            if target:
                problems.append(_problem(number, place, title, target, using))
            continue
        column = Column(place, title, target.column, target.unit, target.at)
        problems.extend(
            SheetProblem(number, title, what, hint, letter=column.letter)
            for what, hint in _unfit(column, found)
        )
        found.append(column)
    _note_absent(number, found, titles, using or SheetMap(), problems)
    return tuple(found)


def _continuation(
    number: int, place: int, match: re.Match[str], found: list[Column]
) -> list[SheetProblem]:
    """Add a column to the one whose texts it goes on with; or what is wrong with it."""
    last = found[-1] if found else None
    if last is None or last.name != match[1] or int(match[2]) != len(last.more) + 2:
        what = f"{match[0]!r} goes on with no column before it"
        return [SheetProblem(number, match[0][:60], what, letter=letter_of(place))]
    found[-1] = last._replace(more=(*last.more, place))
    return []


def _problem(
    number: int, place: int, title: str, why: str, using: SheetMap | None
) -> SheetProblem:
    """A heading that means nothing here, with what may have been meant."""
    known = tuple(using.columns) if using else ("id", "kind", *known_columns())
    hint = hint_of(title if using else plain_name(title), known)
    if using and not hint:
        hint = "map it, or list it under `ignore:`"
    return SheetProblem(number, title[:60], why, hint, letter=letter_of(place))


def _by_map(title: str, using: SheetMap) -> Target | str:
    """What the map makes of a heading: a target, nothing ("") if it is left aside, or why not."""
    if title in using.columns:
        return using.columns[title]
    if not title or title in using.ignore:
        return ""
    return f"the map does not say what {title[:60]!r} is"


def target_of(title: str) -> Target | str:
    """The column whose name the heading is, with the unit behind it; else why it is none."""
    name, unit = title, ""
    match = _WITH_UNIT.fullmatch(title)
    if match:
        name, unit = match[1], next(each for each in match.groups()[1:] if each is not None)
    if name not in ("id", "kind", *known_columns()):
        name = plain_name(name)
    if name in ("id", "kind") or name in known_columns():
        return Target(name, unit.strip())
    return f"no part has a field {title[:60]!r}"


def plain_name(title: str) -> str:
    """A heading as a field would be spelt: "Rated current" is rated_current."""
    return re.sub(r"[\s_-]+", "_", title.strip()).casefold()


def _unfit(column: Column, before: Sequence[Column]) -> list[tuple[str, str]]:
    """What is wrong with a column, beside those before it: what and hint."""
    found = []
    for other in before:
        if other.name == column.name and other.at == column.at:
            title = column.title[:60]
            same = other.title == column.title
            what = f"column {title!r} stands twice" if same else f"{column.name} has two columns"
            found.append((what, f"the other is column {other.letter}"))
        elif _overlap(column, other) or _overlap(other, column):
            what = f"{column.name} is stated in two ways"
            found.append((what, f"the other is column {other.letter} ({other.name})"))
    if column.unit and (problem := unit_problem(column.name, column.unit)):
        found.append(problem)
    return found


def _overlap(whole: Column, leaf: Column) -> bool:
    """Whether a column holds in each cell what the other holds a quantity of."""
    if whole.name == leaf.name:
        return bool(whole.at) != bool(leaf.at)
    return leaf.name.startswith(f"{whole.name}.") and whole.name != "curve"


def unit_problem(name: str, unit: str) -> tuple[str, str] | None:
    """What keeps a unit from being one of that column; None if nothing does."""
    wanted = dimensions(name) or (("current",) if name == _AT else ())
    if not wanted:
        return f"{name} takes no unit, but {unit[:20]!r} stands with it", ""
    error: QuantityError | None = None
    for dimension in wanted:
        try:
            parse(f"1 {unit}", dimension)
        except QuantityError as found:
            error = found
        else:
            return None
    return (f"unit {unit[:20]!r} of {name}: {error.message}", error.hint) if error else None


def _note_absent(
    number: int,
    found: Sequence[Column],
    titles: Sequence[str],
    using: SheetMap,
    problems: list[SheetProblem],
) -> None:
    """Note headings of the map that the sheet lacks, and id or kind where nothing states them."""
    missing = [
        (title, (target.line, target.place)) for title, target in using.columns.items()
    ] + list(using.ignore.items())
    for title, at in missing:
        if title not in titles:
            what = f"the sheet has no column {title[:60]!r} in row {number}"
            problems.append(SheetProblem(number, "", what, hint_of(title, titles), at=at))
    for name in ("id", "kind"):
        if name not in using.constant and all(column.name != name for column in found):
            hint = "map a heading to it" if using.columns else ""
            if using.columns and name == "kind":
                hint = "map a heading to it, or state it under `constant:`"
            problems.append(SheetProblem(number, name, f"there is no column {name!r}", hint))
