"""The schedule of busbars and switches: what each carries, bears and may break."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.model import Busbar
from coordination.report.wording import clean, number
from coordination.schedules.facts import EMPTY, Facts, cell, part_id, place_of, stated
from coordination.schedules.kinds import Schedule
from coordination.schedules.sheet import FILE, FINDINGS, PARTS, STUDY, Field, box, sheet

if TYPE_CHECKING:
    from coordination.rules.finding import Findings
    from coordination.trace import Value

TITLE = "Busbars and switches"


class _Row(NamedTuple):
    facts: Facts
    it: Any

    @property
    def is_bar(self) -> bool:
        return isinstance(self.it, Busbar)


def busbars(findings: Findings, made: date) -> Schedule:
    """Busbars, then switches, in the file's order; currents are the worst of all conditions."""
    facts = Facts(findings, made)
    study = facts.studies[0]
    found = (*study.subjects("busbar"), *study.subjects("disconnect"))
    return sheet("busbars", TITLE, _FIELDS, ((each.name, _Row(facts, each)) for each in found))


def _load(row: _Row) -> str:
    if row.is_bar:
        return cell(row.facts.most(lambda study: study.section_load(row.it)))
    return cell(row.facts.most(lambda study: study.load(row.it)))


def _fault(row: _Row) -> str:
    def largest(study: Any) -> Value:
        found: Value = study.fault_max(row.it.name) if row.is_bar else study.duty(row.it)
        return found

    return cell(row.facts.most(largest))


def for_a_time(part: Any, field: str) -> str:
    """ "900 A for 30 s": every row that a part states under a field."""
    value = getattr(part, field, None) or ()
    rows = list(enumerate(value)) if isinstance(value, tuple) else [(None, value)]
    return ", ".join(_current_for(part, field if n is None else f"{field}.{n}", v) for n, v in rows)


def _current_for(part: Any, path: str, row: Any) -> str:
    current = number(row.current, "A", part.written.get(f"{path}.current", ""))
    return f"{current} for {number(row.time, 's', part.written.get(f'{path}.time', ''))}"


def _breaking(row: _Row) -> str:
    part = row.it.part
    rating = getattr(part, "breaking", None)
    if rating is None:
        return EMPTY
    current = number(rating.current, "A", part.written.get("breaking.current", ""))
    return f"{current} at {number(rating.voltage, 'V', part.written.get('breaking.voltage', ''))}"


def _position(row: _Row) -> str:
    if row.is_bar:
        return EMPTY
    return "open" if row.it.normally_open else "closed"


def _order(row: _Row) -> str:
    return ", ".join(map(clean, row.it.order)) if row.is_bar else EMPTY


def _operated(row: _Row) -> str:
    return EMPTY if row.is_bar else clean(row.it.operated_by or EMPTY)


def _fields() -> Iterator[Field]:
    yield Field("name", "which one", FILE, lambda r: clean(r.it.name))
    yield Field("kind", "busbar or switch", FILE, lambda r: "busbar" if r.is_bar else "switch")
    yield Field("place", "where it stands", FILE, lambda r: place_of(r.it))
    yield Field("part", "what to buy", FILE, lambda r: part_id(r.it.part))
    yield Field("rated", "continuous", PARTS, lambda r: stated(r.it.part, "rated_current", "A"))
    yield Field(
        "for a time", "short of continuous", PARTS, lambda r: for_a_time(r.it.part, "intermittent")
    )
    yield Field("rated DC", "voltage rating", PARTS, lambda r: stated(r.it.part, "voltage", "V"))
    yield Field(
        "voltage max", "highest system voltage here", STUDY,
        lambda r: cell(r.facts.most(lambda s: s.voltage_max(r.it))),
    )  # fmt: skip
    yield Field("load", "of a bar: its busiest section", STUDY, _load)
    yield Field("fault max", "largest fault current", STUDY, _fault)
    yield Field(
        "withstands", "fault current for a time", PARTS,
        lambda r: for_a_time(r.it.part, "short_time" if r.is_bar else "withstand"),
    )  # fmt: skip
    yield Field("may open", "current it breaks, at a voltage", PARTS, _breaking)
    yield Field("normally", "as drawn", FILE, _position)
    yield Field("worked by", "a battery's own electronics", FILE, _operated)
    yield Field("order", "circuits along the bar", FILE, _order)
    yield box("positions", "as its plate names them")
    yield box("off before", "what must be OFF before it is opened")
    yield box("studs, lug order", "as fitted, the largest lug at the bottom")
    yield Field("verdicts", "of every rule", FINDINGS, lambda r: r.facts.verdicts(r.it.name))
    yield Field("note", "waivers", FINDINGS, lambda r: r.facts.notes(r.it.name))


_FIELDS = tuple(_fields())
