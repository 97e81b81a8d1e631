"""One event, or what may strike one thing, condition by condition and with the sums behind it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from coordination.report.colour import Paint, plain
from coordination.report.lines import NARROWEST, labelled, wrapped
from coordination.report.outage_rows import OutageRow, grouped, names, outage_rows
from coordination.report.tables import markdown_safe
from coordination.report.tree import value_lines
from coordination.report.wording import UNKNOWN, clean, number

if TYPE_CHECKING:
    from coordination.trace import Value

Studies = Mapping[str, Any]


#: A detail leaves out no name.
_EVERY = 10_000


def known_names(studies: Studies) -> tuple[str, ...]:
    """Everything that an event may be asked by: its name, what it opens, or whom it strikes."""
    found: dict[str, None] = {}
    for study in studies.values():
        for outcome in study.outages:
            found.update(dict.fromkeys((outcome.event.name, *outcome.event.opened)))
        found.update(dict.fromkeys(study.system.equipment))
    return tuple(found)


def rows_about(studies: Studies, name: str) -> tuple[OutageRow, ...]:
    """The rows of events by that name, or that open it; of equipment, those that strike it."""
    rows = outage_rows(studies, exactly=True)
    return tuple(row for row in rows if is_about(row.outcome, name, studies))


def is_about(outcome: Any, name: str, studies: Studies) -> bool:
    """Whether an event bears that name or opens it; of equipment, whether it strikes it."""
    if name in next(iter(studies.values())).system.equipment:
        return name in outcome.dark or any(name == each for each, _ in outcome.supplied)
    event = outcome.event
    return name == event.name or (name in event.opened and event.kind != "all switches")


def detail_report(studies: Studies, name: str, width: int, paint: Paint = plain) -> str:
    """Every row about a name, with the sums of what limited sources carry."""
    width = max(width, NARROWEST)
    rows = rows_about(studies, name)
    if not rows:
        return f"{clean(name)}: nothing changes in any condition.\n"
    return "\n".join("\n".join(_row(row, studies, width, paint)) for row in rows)


def _row(row: OutageRow, studies: Studies, width: int, paint: Paint) -> Iterator[str]:
    for line in wrapped(clean(row.event.told), width):
        yield paint("heading", line)
    yield from labelled(_facts(row, studies), width, "  ")
    study = studies[row.conditions[0]]
    for supplied, equipment in grouped(row.outcome.supplied):
        sides: tuple[tuple[str, Value], ...] = (
            ("drawn", study.limited_demand(supplied)),
            ("given at most", study.limited_supply(supplied)),
        )
        yield from wrapped(f"{names(equipment)}:", width, "  ")
        for label, side in sides:
            yield f"    {label}"
            yield from value_lines(side, width)
    yield ""


def _facts(row: OutageRow, studies: Studies) -> Iterator[tuple[str, str]]:
    outcome = row.outcome
    yield "in", ", ".join(map(clean, row.conditions))
    yield "opens", names([each for each in row.event.opened if each != row.event.name], _EVERY)
    yield "goes dark", names(outcome.dark, _EVERY) or "nothing"
    for supplied, equipment in grouped(outcome.supplied):
        yield supplied.state, _supplied_words(supplied, equipment)
    yield "stops", names(outcome.stopped, _EVERY)
    for left in outcome.left:
        company = names(left.beside, _EVERY) or "nothing else"
        yield "runs without a battery", f"{clean(left.source)}, with {company}"
    yield "joined to nothing", names(outcome.isolated, _EVERY)
    yield "parts", " | ".join(names(group, _EVERY) for group in outcome.parted)
    if row.event.kind == "all switches":
        yield "stays live", names(outcome.live, _EVERY) or "nothing"
    critical = [name for name in (*outcome.dark, *outcome.starved) if _critical(studies, name)]
    yield "critical of these", names(critical, _EVERY)


def _supplied_words(supplied: Any, equipment: tuple[str, ...]) -> str:
    sources = names(supplied.sources, _EVERY) or "nothing"
    told = f"{names(equipment, _EVERY)} on {sources} alone"
    if supplied.state == "unknown":
        return f"{told}; {UNKNOWN} for want of {names(supplied.missing, _EVERY)}"
    return f"{told}: {number(supplied.demand, 'A')} drawn, {number(supplied.limit, 'A')} given"


def _critical(studies: Studies, name: str) -> bool:
    return bool(next(iter(studies.values())).system.equipment[name].critical)


def detail_markdown(studies: Studies, name: str) -> str:
    """The same as markdown, without the sums."""
    rows = rows_about(studies, name)
    if not rows:
        return f"{markdown_safe(clean(name))}: nothing changes in any condition.\n"
    lines: list[str] = []
    for row in rows:
        lines += ["", f"## {markdown_safe(clean(row.event.told))}", ""]
        facts = ((label, text) for label, text in _facts(row, studies) if text)
        lines += [f"- {label}: {markdown_safe(text)}" for label, text in facts]
    return "\n".join(lines[1:]) + "\n"
