"""The shore power sheet: each inlet in each condition, what it carries and the limit to set."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.report.wording import clean
from coordination.schedules.facts import Facts, cell, stated
from coordination.schedules.kinds import Schedule
from coordination.schedules.sheet import FILE, FINDINGS, STUDY, Field, box, sheet

if TYPE_CHECKING:
    from coordination.rules.finding import Findings

TITLE = "Shore power"

#: What a limit counts, in words of the sheet.
_COUNTS = {"inlet": "all that comes in", "charger": "the charger only"}


class _Row(NamedTuple):
    facts: Facts
    inlet: Any
    condition: str
    budget: Any


def shore(findings: Findings, made: date) -> Schedule:
    """A row for each inlet and each condition in which it is in."""
    facts = Facts(findings, made)
    rows = (
        (inlet.name, _Row(facts, inlet, study.condition.name, study.shore(inlet)))
        for inlet in findings.system.shore.values()
        for study in facts.studies
        if study.shore(inlet) is not None
    )
    return sheet("shore", TITLE, _FIELDS, rows)


def _cord(row: _Row) -> str:
    told = (("cord", "A"), ("cord_area", "m²"), ("cord_length", "m"))
    return ", ".join(filter(None, (stated(row.inlet, field, unit) for field, unit in told)))


def _supply(row: _Row) -> str:
    told = (stated(row.inlet, "voltage", "V"), stated(row.inlet, "frequency", "Hz"))
    return ", ".join(filter(None, told))


def _chargers(row: _Row) -> str:
    each = (cell(current) for _, current in row.budget.chargers)
    return " + ".join(filter(None, each))


def _fields() -> Iterator[Field]:
    yield Field("inlet", "which one", FILE, lambda r: clean(r.inlet.name))
    yield Field("condition", "in which", FILE, lambda r: clean(r.condition))
    yield Field("supply", "what feeds it", FILE, lambda r: r.inlet.supply or "")
    yield Field("mains", "voltage and frequency as stated", FILE, _supply)
    yield Field("inlet rating", "of the socket", FILE, lambda r: stated(r.inlet, "inlet", "A"))
    yield Field("cord", "rating, section, length", FILE, _cord)
    yield Field("breaker", "upstream", FILE, lambda r: stated(r.inlet, "breaker", "A"))
    yield box("pedestal types met", "in use")
    yield Field(
        "ground-fault trip", "upstream, not checked", FILE,
        lambda r: stated(r.inlet, "ground_fault_trip", "A"),
    )  # fmt: skip
    yield Field(
        "input limit set", "at the inverter-charger", FILE,
        lambda r: stated(r.inlet, "input_limit", "A"),
    )  # fmt: skip
    yield Field(
        "limit counts", "what it holds back", FILE,
        lambda r: _COUNTS.get(r.inlet.limits or "", ""),
    )  # fmt: skip
    yield Field("AC loads", "sum, straight through", STUDY, lambda r: cell(r.budget.passed))
    yield Field("charger draws", "at its own limit", STUDY, _chargers)
    yield Field("together", "everything at once", STUDY, lambda r: cell(r.budget.whole))
    yield Field("limit to set", "counting all that comes in", STUDY, lambda r: cell(r.budget.may))
    yield Field("left for charging", "at that limit", STUDY, lambda r: cell(r.budget.left))
    yield Field("full after at least", "bulk only, no taper", STUDY, lambda r: cell(r.budget.time))
    yield Field("verdicts", "of every rule", FINDINGS, lambda r: r.facts.verdicts(r.inlet.name))


_FIELDS = tuple(_fields())
