"""The schedule of fuses, breakers and channels: ratings, fault currents here, who stands above."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.report.pair_rows import PairRow
from coordination.report.wording import clean, number
from coordination.schedules.facts import EMPTY, Facts, cell, part_id, place_of, stated, yes_no
from coordination.schedules.interrupting import interrupts, margin
from coordination.schedules.kinds import Schedule
from coordination.schedules.sheet import FILE, FINDINGS, PARTS, STUDY, Field, box, sheet
from coordination.study.openings import slower_end
from coordination.trace import Unknown, Value

if TYPE_CHECKING:
    from coordination.rules.finding import Findings

KINDS = ("fuse", "breaker", "channel")
TITLE = "Fuses, breakers and electronic outputs"


class _Device(NamedTuple):
    facts: Facts
    element: Any


def devices(findings: Findings, made: date) -> Schedule:
    """One row a device, in the file's order; currents are the worst of all conditions."""
    facts = Facts(findings, made)
    found = (each for each in findings.system.elements() if each.kind in KINDS)
    return sheet("devices", TITLE, _FIELDS, ((each.name, _Device(facts, each)) for each in found))


def _voltage_rating(device: _Device) -> str:
    part = device.element.part
    return stated(part, "rated_voltage", "V") or stated(part, "voltage", "V")


def _clears_in(device: _Device) -> str:
    """Latest clearing [s] of the weakest fault in what it protects, as the rule takes it."""
    element = device.element

    def time(study: Any) -> Value:
        current = study.fault_min_through(element)
        found: Value = study.clearing(element, current, slower_end(study, element)).time
        return found

    def flows(study: Any) -> bool:
        current = study.fault_min_through(element)
        return isinstance(current, Unknown) or current.value > 0.0

    return cell(device.facts.most(time, flows))


def _upstream(device: _Device) -> str:
    return ", ".join(clean(name) for name in _worst_pairs(device))


def _selective(device: _Device) -> str:
    """How far each pair is proven, in the order of the upstream devices."""
    return ", ".join(_up_to(row) for row in _worst_pairs(device).values())


def _worst_pairs(device: _Device) -> dict[str, PairRow]:
    worst: dict[str, PairRow] = {}
    for row in device.facts.pairs.get(device.element.name, ()):
        if row.upstream not in worst or _rank(row) < _rank(worst[row.upstream]):
            worst[row.upstream] = row
    return worst


def _rank(row: PairRow) -> tuple[bool, int, float]:
    return row.alone, ("fail", "unproven", "pass").index(row.verdict), row.proven_up_to or 0.0


def _up_to(row: PairRow) -> str:
    """ "9.8 kA"; "1.2 kA, then fail"; "fail" where it holds nowhere; "either" as in `pairs`."""
    if row.alone:
        return "either"
    if row.proven_up_to is None:
        return row.verdict
    reach = number(row.proven_up_to, "A")
    return reach if row.verdict == "pass" else f"{reach}, then {row.verdict}"


def _what_it_is() -> Iterator[Field]:
    yield Field("device", "which one", FILE, lambda d: clean(d.element.name))
    yield Field("kind", "fuse, breaker or electronic output", FILE, lambda d: d.element.kind)
    yield Field("place", "where it stands", FILE, lambda d: place_of(d.element))
    yield Field("circuit", "what it is in", FILE, lambda d: clean(d.element.circuit))
    yield Field("part", "what to buy", FILE, lambda d: part_id(d.element.part))
    yield Field(
        "family", "replace with the same", PARTS,
        lambda d: clean(getattr(d.element.part, "family", None) or EMPTY),
    )  # fmt: skip
    yield Field(
        "rated", "current rating", PARTS, lambda d: stated(d.element.part, "rated_current", "A")
    )
    yield Field("rated DC", "voltage rating", PARTS, _voltage_rating)
    yield Field(
        "interrupts", "what it breaks, at the voltage that the rating is for", PARTS,
        lambda d: interrupts(d.facts, d.element),
    )  # fmt: skip


def _fields() -> Iterator[Field]:
    yield from _what_it_is()
    yield Field(
        "voltage max", "highest system voltage here", STUDY,
        lambda d: cell(d.facts.most(lambda s: s.voltage_max(d.element))),
    )  # fmt: skip
    yield Field(
        "fault max", "largest fault current through it", STUDY,
        lambda d: cell(d.facts.most(lambda s: s.duty(d.element))),
    )  # fmt: skip
    yield Field(
        "margin", "interrupt rating / fault max", STUDY, lambda d: margin(d.facts, d.element)
    )
    yield Field(
        "fault min", "weakest fault in what it protects", STUDY,
        lambda d: cell(d.facts.least(lambda s: s.fault_min_through(d.element))),
    )  # fmt: skip
    yield Field("clears in", "latest clearing of that weakest fault", STUDY, _clears_in)
    yield Field(
        "load", "design current", STUDY, lambda d: cell(d.facts.most(lambda s: s.load(d.element)))
    )
    yield Field("upstream", "next devices towards the batteries", STUDY, _upstream)
    yield Field("selective up to", "fault current up to which it opens first", STUDY, _selective)
    yield Field(
        "distance", "along the conductor from the source", FILE,
        lambda d: stated(d.element, "distance", "m"),
    )  # fmt: skip
    yield Field("sheathed", "on that distance", FILE, lambda d: yes_no(d.element.sheathed))
    yield box("holder, torque", "as fitted")
    yield box("spare aboard", "how many, and where")
    yield Field("verdicts", "of every rule", FINDINGS, lambda d: d.facts.verdicts(d.element.name))
    yield Field("note", "waivers", FINDINGS, lambda d: d.facts.notes(d.element.name))


_FIELDS = tuple(_fields())
