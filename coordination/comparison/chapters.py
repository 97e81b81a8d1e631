"""What a comparison tells, as chapters of sentences and tables, for text and markdown."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, NamedTuple

from coordination.comparison.side import QUANTITIES
from coordination.report.wording import UNKNOWN, clean, number

if TYPE_CHECKING:
    from coordination.comparison.compare import Altered, Comparison, Move, Moved
    from coordination.comparison.side import Said

#: Rows of a chapter that are shown unless all are asked for.
SHOWN = 15


class Chapter(NamedTuple):
    """A title with the number of what follows, then a table, then lines.

    left -- rows that are not shown
    """

    title: str
    headers: tuple[str, ...] = ()
    align: str = ""
    rows: tuple[tuple[str, ...], ...] = ()
    lines: tuple[str, ...] = ()
    left: int = 0


_TITLES = {
    "new fail": "New fails",
    "newly unproven": "Newly unproven",
    "newly waived": "Newly waived",
    "eroded": "Margins eroded",
    "vanished": "No longer judged",
    "other": "Other changes of verdict",
    "appeared": "Newly judged",
    "settled": "Settled",
    "cured": "Cured",
    "improved": "Margins improved",
}
#: Of these the sentence is told that says why.
_WHY = ("new fail", "newly unproven", "newly waived")
_TABLE = ("subject", "rule", "then", "now")


def chapters(comparison: Comparison, *, everything: bool = False) -> Iterator[Chapter]:
    """All that differs, the gravest first; none where nothing does."""
    most = None if everything else SHOWN
    if comparison.holes:
        yield Chapter(
            f"Newly unchecked ({len(comparison.holes)})", lines=tuple(map(clean, comparison.holes))
        )
    for how, title in _TITLES.items():
        moves = comparison.of(how)
        if moves:
            yield _of_moves(title, how, moves, comparison, most)
    yield from _currents(comparison, most)
    yield from _drawing(comparison)
    yield from _basis(comparison)


def _of_moves(
    title: str, how: str, moves: tuple[Move, ...], comparison: Comparison, most: int | None
) -> Chapter:
    came, gone = _things_of(comparison, "added"), _things_of(comparison, "removed")
    # What is new and bad is never cut short.
    shown = moves if how in _WHY else moves[:most]
    rows = tuple(
        (
            clean(each.subject),
            clean(each.rule),
            _said(each.before, each.subject in came),
            _said(each.after, each.subject in gone),
        )
        for each in shown
    )
    why = (each.after.because for each in shown if each.after) if how in _WHY else ()
    lines = tuple(clean(each) for each in why if each)
    left = len(moves) - len(shown)
    return Chapter(f"{title} ({len(moves)})", _TABLE, "llll", rows, lines, left)


def _things_of(comparison: Comparison, how: str) -> set[str]:
    return {each.name for each in comparison.things or () if each.how == how}


def _said(said: Said | None, absent: bool) -> str:
    if said is None:
        return "not there" if absent else "not judged"
    margin = "" if said.margin is None else f", margin {said.margin:.4g}"
    return f"{said.verdict}{margin}"


def _currents(comparison: Comparison, most: int | None) -> Iterator[Chapter]:
    moved = comparison.currents
    if not moved:
        return
    ranked = sorted(moved, key=_share)
    rows = tuple(_current(each) for each in ranked[:most])
    headers = ("at", "quantity", "condition", "then", "now", "change")
    left = len(moved) - len(rows)
    title = f"Changed currents and voltages ({len(moved)})"
    yield Chapter(title, headers, "lllrrr", rows, left=left)


def _share(each: Moved) -> tuple[float, str, str]:
    """The largest change first; what became known or unknown before all."""
    if each.before is None or each.after is None:
        return float("-inf"), each.where, each.quantity
    return -abs(each.after - each.before) / max(abs(each.before), 1e-12), each.where, each.quantity


def _current(each: Moved) -> tuple[str, ...]:
    words, unit = QUANTITIES[each.quantity]
    then, now = (UNKNOWN if value is None else number(value, unit)
                 for value in (each.before, each.after))  # fmt: skip
    known = each.before and each.after is not None
    change = f"{(each.after / each.before - 1) * 100:+.1f} %" if known else ""  # type: ignore[operator]
    return clean(each.where), words, clean(each.condition), then, now, change


def _drawing(comparison: Comparison) -> Iterator[Chapter]:
    if comparison.renames:
        rows = tuple((clean(was), clean(now)) for was, now in comparison.renames.items())
        title = f"Renamed or moved along, by guess ({len(rows)})"
        yield Chapter(title, ("then", "now"), "ll", rows)
    for what, altered in (("drawing", comparison.things), ("parts", comparison.parts)):
        if altered:
            title = f"Changes of the {what} ({len(altered)})"
            yield Chapter(title, ("what", "field", "then", "now"), "llll", tuple(_rows(altered)))


def _rows(altered: Iterable[Altered]) -> Iterator[tuple[str, ...]]:
    for each in altered:
        name = clean(f"{each.kind} {each.name}")
        if each.how == "changed":
            for field, was, now in each.fields:
                yield name, clean(field), clean(was) or "not stated", clean(now) or "not stated"
        else:
            there = ("", each.how) if each.how == "added" else (each.how, "")
            yield (name, "", *there)


def _basis(comparison: Comparison) -> Iterator[Chapter]:
    headers = ("what", "then", "now")
    for title, differs in (("Packs", comparison.packs), ("Conditions", comparison.conditions)):
        if differs:
            rows = tuple((clean(name), clean(was) or "none", clean(now) or "none")
                         for name, was, now in differs)  # fmt: skip
            yield Chapter(f"{title} ({len(rows)})", headers, "lll", rows)
