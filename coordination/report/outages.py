"""What goes dark: all single events for people, and the drawing's own state before them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby
from typing import Any

from coordination.report.colour import Paint, plain
from coordination.report.lines import NARROWEST, labelled, wrapped
from coordination.report.outage_rows import (
    OutageRow,
    Strike,
    as_drawn_rows,
    critical_of,
    critical_rows,
    effect_words,
    effects,
    harmless_events,
    live_equipment,
    names,
    outage_rows,
)
from coordination.report.tables import markdown_safe, markdown_table
from coordination.report.wording import clean

Studies = Mapping[str, Any]

#: Names listed of what is always live: a label hangs on each, so none is left out.
EVERY = 10_000
NOTHING = "-"
READING = (
    "Dark: no source reaches it any more. On ... alone: no battery is left to it, only sources "
    "that limit their current; starved where more is drawn than they give. Struck: either of "
    "the two. A battery is taken to give what is drawn. Joined batteries with electronics trip "
    "together too, since they reach the same limit. A cable, joint or busbar that breaks is no "
    "event here, nor are two events at once.",
)


def outages_report(studies: Studies, width: int, paint: Paint = plain) -> str:
    """What is always live, what each event does, and what happens to critical equipment."""
    width = max(width, NARROWEST)
    lines = [paint("heading", "Live with every switch off, as drawn"), ""]
    lines += labelled(_live(studies), width, "  ")
    lines += ["", paint("heading", "Before any event"), ""]
    drawn = dict(_drawn(studies))
    lines += labelled(drawn.items(), width, "  ") if drawn else ["  nothing dark or unbuffered"]
    lines += ["", paint("heading", "Single events"), ""]
    lines += [line for each in _events(studies, width) for line in each] or ["  none"]
    if harmless := harmless_events(studies):
        told = ", ".join(clean(event.told) for event in harmless)
        lines += ["", *wrapped(f"Nothing is struck when {told}.", width, "  ")]
    lines += _critical(studies, width, paint)
    lines += ["", *(line for text in READING for line in wrapped(text, width))]
    return "\n".join(lines) + "\n"


def _live(studies: Studies) -> Iterator[tuple[str, str]]:
    by_battery, otherwise = live_equipment(studies)
    yield "by a battery", names(by_battery, EVERY) or NOTHING
    yield "by other sources", names(otherwise, EVERY) or NOTHING


def _drawn(studies: Studies) -> Iterator[tuple[str, str]]:
    critical = critical_of(studies)
    for name, outcome in as_drawn_rows(studies):
        yield clean(name), _words(outcome, critical)


def _words(outcome: Any, critical: frozenset[str]) -> str:
    return "; ".join(effect_words(each, critical) for each in effects(outcome))


def _events(studies: Studies, width: int) -> Iterator[list[str]]:
    critical = critical_of(studies)
    for told, several in groupby(outage_rows(studies), lambda row: row.event.told):
        rows = tuple(several)
        if len(rows) == 1:
            where = "" if rows[0].everywhere else f" in {_where(rows[0])}"
            text = f"{clean(told)}{where}: {_words(rows[0].outcome, critical)}"
            yield wrapped(text, width, "  ", "      ")
            continue
        yield wrapped(f"{clean(told)}:", width, "  ", "      ")
        for row in rows:
            text = f"{_where(row)}: {_words(row.outcome, critical)}"
            yield wrapped(text, width, "    ", "      ")


def _where(row: OutageRow) -> str:
    return ", ".join(map(clean, row.conditions))


def _critical(studies: Studies, width: int, paint: Paint) -> Iterator[str]:
    rows = critical_rows(studies)
    if rows:
        yield from ("", paint("heading", "Critical equipment is struck when"), "")
        yield from labelled(((name, _strikes(several)) for name, several in rows), width, "  ")


def _strikes(several: tuple[Strike, ...]) -> str:
    told = [
        clean(each.event.told) + (f" ({', '.join(each.conditions)})" if each.conditions else "")
        for each in several
    ]
    return ", ".join(told) or "no single event"


def outages_markdown(studies: Studies) -> str:
    """The same as markdown."""
    critical = critical_of(studies)
    lines = ["## Live with every switch off, as drawn", ""]
    lines += [f"- {label}: {markdown_safe(text)}" for label, text in _live(studies)]
    if drawn := dict(_drawn(studies)):
        lines += ["", "## Before any event", ""]
        lines += [f"- {markdown_safe(name)}: {markdown_safe(text)}" for name, text in drawn.items()]
    rows = [
        (clean(row.event.told), "all" if row.everywhere else _where(row),
         _words(row.outcome, critical))
        for row in outage_rows(studies)
    ]  # fmt: skip
    lines += ["", "## Single events", ""]
    lines.append(markdown_table(rows, ("event", "in", "effect"), "lll") if rows else "None.")
    if harmless := harmless_events(studies):
        told = ", ".join(clean(event.told) for event in harmless)
        lines += ["", f"Nothing is struck when {markdown_safe(told)}."]
    if struck := critical_rows(studies):
        lines += ["", "## Critical equipment is struck when", ""]
        for name, several in struck:
            lines.append(f"- {markdown_safe(name)}: {markdown_safe(_strikes(several))}")
    return "\n".join((*lines, "", *READING)) + "\n"
