"""The list of loads: what each draws, for how long, what it must have and what it may lose."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.model import Converter
from coordination.network.supply import converter_current, equipment_current
from coordination.report.block import margin_words
from coordination.report.wording import clean, number
from coordination.schedules.alive import kept_on, left_on_trip, lost_on_trip
from coordination.schedules.facts import EMPTY, Facts, cell, stated, yes_no
from coordination.schedules.kinds import Schedule
from coordination.schedules.sheet import FILE, FINDINGS, STUDY, Field, box, sheet
from coordination.trace import Unknown

if TYPE_CHECKING:
    from coordination.rules.finding import Finding, Findings
    from coordination.trace import Value

TITLE = "Loads"


class _Row(NamedTuple):
    facts: Facts
    it: Any
    point: str
    alive: frozenset[str]
    lost: frozenset[str] | None

    @property
    def converts(self) -> bool:
        return isinstance(self.it, Converter)


def loads(findings: Findings, made: date) -> Schedule:
    """Equipment, then the inputs of converters, in the file's order."""
    facts, system = Facts(findings, made), findings.system
    alive, lost = kept_on(system), lost_on_trip(system)
    points = {name: name for name in system.equipment}
    points |= {name: f"{name}.input" for name in system.converters}
    things = {**system.equipment, **system.converters}
    rows = ((n, _Row(facts, things[n], point, alive, lost)) for n, point in points.items())
    return sheet("loads", TITLE, _FIELDS, rows)


def _circuits(row: _Row) -> str:
    ends = (c.name for c in row.facts.system.circuits.values() if row.point in (c.start, c.end))
    return ", ".join(map(clean, ends))


def _draws(row: _Row) -> str:
    current: Value = converter_current(row.it) if row.converts else equipment_current(row.it)
    return cell(current)


def _for_a_time(row: _Row, field: str) -> str:
    stood = getattr(row.it, field, None)
    if stood is None:
        return EMPTY
    current = number(stood.current, "A", row.it.written.get(f"{field}.current", ""))
    return f"{current} for {number(stood.time, 's', row.it.written.get(f'{field}.time', ''))}"


def _surge(row: _Row) -> str:
    told = ((word, _for_a_time(row, word)) for word in ("surge", "start", "stall"))
    return ", ".join(f"{word} {text}" for word, text in told if text)


def _inrush(row: _Row) -> str:
    """ "1.7 kA, 90 A²s": the largest peak and energy of connecting its input capacitance."""
    if row.converts or row.it.capacitance is None:
        return EMPTY
    peak = cell(row.facts.most(lambda study: study.inrush(row.it).peak))
    energy = cell(row.facts.most(lambda study: study.inrush(row.it).energy))
    return ", ".join(filter(None, (peak, energy)))


def _duty(row: _Row) -> str:
    return EMPTY if row.converts else stated(row.it, "duty", "")


def _critical(row: _Row) -> str:
    return EMPTY if row.converts else yes_no(row.it.critical)


def _least_voltage(row: _Row) -> str:
    return stated(row.it, "min_input_voltage" if row.converts else "min_voltage", "V")


def _arrives(row: _Row) -> str:
    """The lowest voltage at it: every condition must tell."""
    return cell(row.facts.least(lambda study: study.load_voltage(row.point)))


def _drop(row: _Row) -> str:
    return cell(row.facts.most(lambda study: study.drop(row.it), lambda study: _fed(row, study)))


def _fed(row: _Row, study: Any) -> bool:
    """Whether a battery feeds it in a condition; an unknown for another reason stays one."""
    lost = study.drop(row.it)
    return not (isinstance(lost, Unknown) and any("not connected" in m for m in lost.missing))


def _limit(row: _Row) -> str:
    """The drop that the file states or its rule allows, and the margin."""
    if not row.converts and row.it.drop_limit is not None:
        return stated(row.it, "drop_limit", "")
    found: Finding | None = row.facts.of_rule(row.it.name, "voltage-drop")
    if found is None or found.required is None or found.relation != "<=":
        return EMPTY
    margin = margin_words(found)
    return cell(found.required) + (f", margin {margin}" if margin else EMPTY)


def _goes_dark(row: _Row) -> str:
    """ "no", "yes", or what limited supply is left."""
    if row.lost is None or row.point not in row.lost:
        return EMPTY if row.lost is None else yes_no(False)
    left = left_on_trip(row.facts.system, row.point)
    return f"left on {', '.join(map(clean, left))} only" if left else yes_no(True)


def _fields() -> Iterator[Field]:
    yield Field("load", "which one", FILE, lambda r: clean(r.it.name))
    yield Field("circuit", "what feeds it", FILE, _circuits)
    yield Field(
        "nominal", "voltage of its side", STUDY,
        lambda r: cell(r.facts.most(lambda s: s.island_nominal(r.point))),
    )  # fmt: skip
    yield Field("power", "nameplate", FILE, lambda r: stated(r.it, "power", "W"))
    yield Field("current", "nameplate, or power at its lowest voltage", STUDY, _draws)
    yield box("A measured", "in use")
    yield Field("at once", "surge, start, stall", FILE, _surge)
    yield Field("inrush", "peak and energy when connected", STUDY, _inrush)
    yield Field("duty", "share of the time, at most", FILE, _duty)
    yield box("h per day", "in use")
    yield box("Wh per day", "in use")
    yield Field("critical", "must stay alive", FILE, _critical)
    yield Field(
        "always on", "alive with all switches off", FILE, lambda r: yes_no(r.point in r.alive)
    )
    yield Field("dark on pack trip", "when batteries open themselves", FILE, _goes_dark)
    yield Field("least voltage", "it works at", FILE, _least_voltage)
    yield Field("voltage at it", "lowest under load", STUDY, _arrives)
    yield Field("drop", "on the way to it, both legs, hot", STUDY, _drop)
    yield Field("drop allowed", "by its rule", FINDINGS, _limit)
    yield Field("verdicts", "of every rule", FINDINGS, lambda r: r.facts.verdicts(r.it.name))
    yield Field("note", "waivers", FINDINGS, lambda r: r.facts.notes(r.it.name))


_FIELDS = tuple(_fields())
