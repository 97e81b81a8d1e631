"""The time-current sheets of a system: one for each way down to a last device.

Devices of one part with the same devices above them share a sheet.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.papers.svg import Picture, inline
from coordination.papers.table import Cell, Row, Table, table
from coordination.report.anchors import DEVICE, anchor
from coordination.report.pair_rows import PairRow, pair_rows
from coordination.report.wording import amount, clean, number

if TYPE_CHECKING:
    from coordination.charts import Chart, Path
    from coordination.languages.language import Language

#: Sheets on a page; the gravest come first, and the page tells of the others.
MOST = 12

_GRAVEST = {"fail": 0, "unproven": 1, "pass": 2}


class Way(NamedTuple):
    """One sheet to draw: the way down to `name`, and devices that it holds for as well."""

    name: str
    alike: tuple[str, ...]


def picture_of(study: Any, way: Way, when: date, place: int, words: Language) -> Picture:
    """The sheet of a way. Raises ModuleNotFoundError without the drawing library."""
    from coordination.charts import chart_of, path_of
    from coordination.charts.drawing import SIZE, picture
    from coordination.charts.translated import in_language

    chart = in_language(chart_of(study, path_of(study, (way.name,)), when), words)
    told = _told(chart, words)
    svg = picture(chart, "svg", words).decode("utf-8")
    title = words("curves.of", names=", ".join(map(clean, (way.name, *way.alike))))
    markup = inline(svg, f"curve{place}", told)
    return Picture(title, told, markup, SIZE[0] * 72, SIZE[1] * 72)


def _told(chart: Chart, words: Language) -> str:
    """What a chart shows, for who cannot see it."""
    names = "; ".join(curve.label[0] for curve in chart.curves)
    marks = "; ".join(mark.label.replace("\n", " ") for mark in chart.marks)
    return f"{chart.title}. {words('curves.drawn')}: {names}. {marks}".rstrip(". ") + "."


def ways_of(study: Any) -> tuple[Way, ...]:
    """Every sheet a study has, the gravest first."""
    rows = pair_rows(study)
    upper = {row.upstream for row in rows}
    last = dict.fromkeys(row.downstream for row in rows if row.downstream not in upper)
    grave = {name: min(_grave(rows, name)) for name in last}
    groups: dict[tuple[Any, ...], list[str]] = {}
    for name in sorted(last, key=lambda each: grave[each]):
        groups.setdefault((grave[name], *_makeup(study, name)), []).append(name)
    return tuple(Way(first, tuple(others)) for first, *others in groups.values())


def _grave(rows: Iterable[PairRow], name: str) -> Iterator[int]:
    yield from (_GRAVEST[row.verdict] for row in rows if row.downstream == name)


def _makeup(study: Any, name: str) -> tuple[Any, ...]:
    """What makes two sheets alike: the last device's part and the devices above it."""
    from coordination.charts import path_of

    path: Path = path_of(study, (name,))
    own = next(each for each in path.devices if each.name == name)
    above = tuple(sorted(each.name for each in path.devices if each.circuit != own.circuit))
    return own.part.id if own.part else "", above


def worst_pairs(studies: Mapping[str, Any]) -> list[tuple[str, PairRow]]:
    """Every pair with the condition in which it stands worst; the first among equals."""
    found: dict[tuple[str, str], tuple[str, PairRow]] = {}
    for condition, study in studies.items():
        for row in pair_rows(study):
            key = row.downstream, row.upstream
            if key not in found or _GRAVEST[row.verdict] < _GRAVEST[found[key][1].verdict]:
                found[key] = condition, row
    return list(found.values())


def pairs_table(pairs: Iterable[tuple[str, PairRow]], words: Language) -> Table:
    """The pairs as a table."""
    rows = [
        Row((
            Cell(clean(row.downstream), f"#{anchor(DEVICE, row.downstream)}"),
            Cell(clean(row.upstream), f"#{anchor(DEVICE, row.upstream)}"),
            Cell(_current(row.proven_up_to, words)),
            Cell(_current(row.first_gap, words)),
            Cell(words.say(amount(row.high))),
            _verdict(name, row, words),
        ))
        for name, row in pairs
    ]  # fmt: skip
    return table(words("pairs.caption"), words("pairs.heads").split(" | "), rows)


def _verdict(condition: str, row: PairRow, words: Language) -> Cell:
    """The condition matters where the pair does not pass."""
    if row.alone:
        return Cell(words("pairs.either"))
    note = "" if row.verdict == "pass" else clean(condition)
    return Cell(words(f"verdict.{row.verdict}"), note=note, tone=row.verdict)


def _current(value: float | None, words: Language) -> str:
    return "" if value is None else words.figure(number(value, "A"))
