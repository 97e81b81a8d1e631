"""What goes dark, as tables of the page: what is always live, single events, critical equipment."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.papers.table import Cell, Row, Table, table
from coordination.report.anchors import DEVICE, anchor
from coordination.report.outage_rows import (
    Effect,
    OutageRow,
    Strike,
    as_drawn_rows,
    critical_of,
    critical_rows,
    effects,
    harmless_events,
    live_equipment,
    names,
    outage_rows,
)
from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.languages.language import Language

Studies = Mapping[str, Any]

#: No name is left out of what is always live.
_EVERY = 10_000


class OutagePart(NamedTuple):
    """What the section shows; `harmless`: events that strike nothing."""

    live: Table
    drawn: Table | None
    events: Table | None
    critical: Table | None
    harmless: tuple[str, ...]


def outage_part(studies: Studies, words: Language) -> OutagePart:
    """The section over all conditions."""
    return OutagePart(
        _live(studies, words),
        _drawn(studies, words),
        _events(studies, words),
        _critical(studies, words),
        tuple(_words(event, words) for event in harmless_events(studies)),
    )


def _live(studies: Studies, words: Language) -> Table:
    feeds = (words("outages.live_kept"), words("outages.live_fed"))
    rows = [
        Row((Cell(fed), Cell(names(several, _EVERY) or "–")))
        for fed, several in zip(feeds, live_equipment(studies), strict=True)
    ]
    return table(words("outages.live"), words("outages.live_heads").split(" | "), rows)


def _drawn(studies: Studies, words: Language) -> Table | None:
    critical = critical_of(studies)
    rows = [
        Row((Cell(clean(name)), Cell(_told(effects(outcome), words, critical))))
        for name, outcome in as_drawn_rows(studies)
    ]
    heads = words("outages.drawn_heads").split(" | ")
    return table(words("outages.drawn"), heads, rows) if rows else None


def _events(studies: Studies, words: Language) -> Table | None:
    critical = critical_of(studies)
    several = len(studies) > 1
    rows = [_event(row, words, critical, several=several) for row in outage_rows(studies)]
    heads = words("outages.events_heads").split(" | ")
    if not several:
        heads = [heads[0], heads[2]]
    return table(words("outages.events"), heads, rows) if rows else None


def _event(row: OutageRow, words: Language, critical: frozenset[str], *, several: bool) -> Row:
    event = row.event
    # One element leads to its place in the tables of devices.
    link = f"#{anchor(DEVICE, event.name)}" if event.opened == (event.name,) else ""
    where = words("outages.all") if row.everywhere else ", ".join(map(clean, row.conditions))
    last = Cell(_told(effects(row.outcome), words, critical))
    return Row((Cell(_words(event, words), link), *((Cell(where),) if several else ()), last))


def _words(event: Any, words: Language) -> str:
    return words(f"event.{event.kind}", name=clean(event.name))


def _told(several: tuple[Effect, ...], words: Language, critical: frozenset[str]) -> str:
    """ "dark: bilge pump, radio"; critical equipment first."""
    parts = []
    for each in several:
        sources = names(each.on, _EVERY) or words("outages.nothing")
        first = sorted(each.names, key=lambda name: name not in critical)
        who = names(first, more=words("outages.more"))
        how = words(f"effect.{each.what}", on=sources)
        parts.append(f"{how}: {who}")
    return "; ".join(parts)


def _critical(studies: Studies, words: Language) -> Table | None:
    rows = [
        Row((Cell(name), Cell(_strikes(several, words))))
        for name, several in critical_rows(studies)
    ]
    heads = words("outages.critical_heads").split(" | ")
    return table(words("outages.critical"), heads, rows) if rows else None


def _strikes(several: tuple[Strike, ...], words: Language) -> str:
    told = [
        _words(each.event, words) + (f" ({', '.join(each.conditions)})" if each.conditions else "")
        for each in several
    ]
    return ", ".join(told) or words("outages.never")
