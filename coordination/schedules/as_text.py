"""A schedule for the terminal, in bands of columns that fit the width.

Each band is led by what tells the rows apart.
"""

from __future__ import annotations

from collections.abc import Iterator

from coordination.languages.language import ENGLISH, Language
from coordination.report.lines import NARROWEST, wrapped
from coordination.report.tables import columns
from coordination.schedules.kinds import Schedule
from coordination.schedules.sheet import ON_SITE

_GAP = 2
#: Columns are not drawn wider than this; their cells are wrapped.
_WIDE = 40
_BOXES = "Filled in on site (in the files that -o writes): {names}."


def as_text(schedule: Schedule, width: int, words: Language = ENGLISH) -> str:
    """Title and bands; boxes that are filled in on site are named, not drawn."""
    width = max(width, NARROWEST)
    lines = [schedule.title, ""]
    if not schedule.rows:
        return "\n".join([*lines, words.say("None.")]) + "\n"
    boxes = [column.name for column in schedule.columns if column.source == words.say(ON_SITE)]
    for band in _bands(schedule, width, words):
        headers = [schedule.columns[place].name for place in band]
        rows = [[row[place] for place in band] for row in schedule.rows]
        lines += [*columns(rows, headers, "l" * len(band), width), ""]
    if boxes:
        told = words.put(_BOXES, names=", ".join(boxes))
        lines += [*wrapped(told, width), ""]
    return "\n".join(lines[:-1]) + "\n"


def _bands(schedule: Schedule, width: int, words: Language) -> Iterator[list[int]]:
    """Places of columns that fit side by side; those that tell the rows apart lead every band."""
    lead = _lead(schedule)
    wide = [min(_WIDE, max(map(len, cells))) for cells in _columns(schedule)]
    for place in lead:
        wide[place] = min(wide[place], width // (2 + len(lead)))
    start = width - sum(wide[place] + _GAP for place in lead)
    band, room = list(lead), start
    for place in _shown(schedule, lead, words):
        need = wide[place] + _GAP
        if need > room and len(band) > len(lead):
            yield band
            band, room = list(lead), start
        band.append(place)
        room -= need
    yield band


def _lead(schedule: Schedule) -> list[int]:
    """The first column, or the first two where the first alone does not tell the rows apart."""
    names = [row[0] for row in schedule.rows]
    return [0] if len(set(names)) == len(names) else [0, 1]


def _shown(schedule: Schedule, lead: list[int], words: Language) -> Iterator[int]:
    """The other columns that say anything."""
    for place, column in enumerate(schedule.columns):
        filled = any(row[place] for row in schedule.rows)
        if place not in lead and column.source != words.say(ON_SITE) and filled:
            yield place


def _columns(schedule: Schedule) -> Iterator[tuple[str, ...]]:
    names = tuple(column.name for column in schedule.columns)
    yield from zip(names, *schedule.rows, strict=True)
