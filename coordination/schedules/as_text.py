"""A schedule for the terminal: its columns in bands that fit the width, each with the first one."""

from __future__ import annotations

from collections.abc import Iterator

from coordination.report.lines import NARROWEST, wrapped
from coordination.report.tables import columns
from coordination.schedules.kinds import Schedule
from coordination.schedules.sheet import ON_SITE

_GAP = 2
#: Columns are not drawn wider than this; their cells are wrapped.
_WIDE = 40


def as_text(schedule: Schedule, width: int) -> str:
    """Title and bands; boxes that are filled in on site are named, not drawn."""
    width = max(width, NARROWEST)
    lines = [schedule.title, ""]
    if not schedule.rows:
        return "\n".join([*lines, "None."]) + "\n"
    boxes = [column.name for column in schedule.columns if column.source == ON_SITE]
    for band in _bands(schedule, width):
        headers = [schedule.columns[place].name for place in band]
        rows = [[row[place] for place in band] for row in schedule.rows]
        lines += [*columns(rows, headers, "l" * len(band), width), ""]
    if boxes:
        told = f"Filled in on site (in the files that -o writes): {', '.join(boxes)}."
        lines += [*wrapped(told, width), ""]
    return "\n".join(lines[:-1]) + "\n"


def _bands(schedule: Schedule, width: int) -> Iterator[list[int]]:
    """Places of columns that fit side by side; the first column leads every band."""
    wide = [min(_WIDE, max(map(len, cells))) for cells in _columns(schedule)]
    wide[0] = min(wide[0], width // 3)
    band, room = [0], width - wide[0]
    for place, column in enumerate(schedule.columns):
        if place == 0 or column.source == ON_SITE or not any(r[place] for r in schedule.rows):
            continue
        need = _GAP + wide[place]
        if need > room and len(band) > 1:
            yield band
            band, room = [0], width - wide[0]
        band.append(place)
        room -= need
    yield band


def _columns(schedule: Schedule) -> Iterator[tuple[str, ...]]:
    names = tuple(column.name for column in schedule.columns)
    yield from zip(names, *schedule.rows, strict=True)
