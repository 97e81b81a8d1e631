"""The energy sheet: what each bank holds in each condition, how long it lasts, what fills it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.report.wording import clean
from coordination.schedules.facts import Facts, cell
from coordination.schedules.kinds import Schedule
from coordination.schedules.sheet import FILE, STUDY, Field, box, sheet

if TYPE_CHECKING:
    from coordination.rules.finding import Findings
    from coordination.trace import Value

TITLE = "Energy"


class _Row(NamedTuple):
    bank: Any
    condition: str
    study: Any


def energy(findings: Findings, made: date) -> Schedule:
    """A row for each bank and condition, in the file's order."""
    facts = Facts(findings, made)
    rows = (
        ("", _Row(bank, study.condition.name, study))
        for study in facts.studies
        for bank in study.banks()
    )
    return sheet("energy", TITLE, _FIELDS, rows)


def _filled(row: _Row) -> Any:
    """The filling by all its sources together; None where nothing charges it."""
    ways = row.study.recharges(row.bank)
    return ways[-1] if ways else None


def _by(row: _Row) -> str:
    filled = _filled(row)
    return "" if filled is None else clean(" + ".join(filled.names))


def _of_filling(row: _Row, which: str) -> str:
    filled = _filled(row)
    return "" if filled is None else cell(getattr(filled, which))


def _run(row: _Row, which: str) -> str:
    value: Value = getattr(row.study.run_time(row.bank), which)
    return cell(value)


def _fields() -> Iterator[Field]:
    yield Field("bank", "which one", FILE, lambda r: clean(r.bank.name))
    yield Field("condition", "in which", FILE, lambda r: clean(r.condition))
    yield Field(
        "usable charge", "as rated", STUDY, lambda r: cell(r.study.usable(r.bank).nominal)
    )
    yield Field("usable energy", "as rated", STUDY, lambda r: cell(r.study.usable_energy(r.bank)))
    yield Field(
        "average load", "by duty", STUDY, lambda r: cell(r.study.average_load(r.bank).nominal)
    )
    yield Field("runs for", "as rated, on batteries alone", STUDY, lambda r: _run(r, "nominal"))
    yield Field(
        "runs at least", "cold, by tolerance, at low voltage", STUDY, lambda r: _run(r, "least")
    )
    yield box("A measured", "in use")
    yield Field("charged by", "all that are on", FILE, _by)
    yield Field("charging current", "less the loads", STUDY, lambda r: _of_filling(r, "into"))
    yield Field(
        "full after at least", "bulk only, no taper", STUDY, lambda r: _of_filling(r, "time")
    )


_FIELDS = tuple(_fields())
