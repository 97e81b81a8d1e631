"""The labels to print: what stands at each disconnect, fuse, always-live bus and battery.

A blank "____" is for what is known on board only.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.report.wording import clean
from coordination.schedules.alive import joins_batteries, live
from coordination.schedules.busbars import for_a_time
from coordination.schedules.facts import EMPTY, Facts, cell, place_of, stated
from coordination.schedules.interrupting import interrupts
from coordination.schedules.kinds import Schedule
from coordination.schedules.sheet import FILE, STUDY, Field, sheet
from coordination.trace import Derived

if TYPE_CHECKING:
    from coordination.model import Element
    from coordination.rules.finding import Findings

TITLE = "Labels"
BLANK = "____"
#: Chemistries whose batteries have electronics that open them.
_LITHIUM = ("lfp", "nmc", "lto", "sodium-ion")


class _Label(NamedTuple):
    kind: str
    at: Any
    text: str
    nominal: str = EMPTY
    current: str = EMPTY
    calculated: str = EMPTY


def labels(findings: Findings, made: date) -> Schedule:
    """One row a label, kind by kind, in the file's order; currents are the worst of all."""
    facts = Facts(findings, made)
    return sheet("labels", TITLE, _FIELDS, ((each.at.name, each) for each in _labels(facts)))


def _labels(facts: Facts) -> Iterator[_Label]:
    elements = facts.system.elements()
    for each in elements:
        if each.kind == "disconnect":
            yield _disconnect(facts, each)
    for each in elements:
        if each.kind in ("fuse", "breaker"):
            yield _Label(each.kind, each, _replacement(facts, each))
    for each in elements:
        if joins_batteries(facts.system, each):
            yield _Label("parallel switch", each, _parallel(each))
    alive = live(facts.system)
    for bar in facts.system.busbars.values():
        if bar.name in alive:
            yield _Label("always live", bar, f"{clean(bar.name)}: LIVE with all switches OFF.")
    for source in facts.system.sources.values():
        if source.part is not None and _has_remote_off(facts, source):
            text = f"{clean(source.name)}: remote OFF at {BLANK}"
            yield _Label("remote off", source, text)


def _disconnect(facts: Facts, element: Element) -> _Label:
    """What the trade marks at a disconnect: voltage, available fault current, date."""
    ends = (element.start, element.end)
    volts = [facts.most(lambda s, end=end: s.island_nominal(end)) for end in ends]  # type: ignore[misc]
    faults = [facts.most(lambda s, end=end: s.fault_max(end)) for end in ends]  # type: ignore[misc]
    nominal, current = _largest(volts), _largest(faults)
    words = [
        f"{nominal or BLANK} DC nominal",
        f"available fault current {current or BLANK}",
        f"calculated {facts.made.isoformat()}",
    ]
    return _Label(
        "disconnect", element, f"{clean(element.name)}: {', '.join(words)}",
        nominal, current, facts.made.isoformat(),
    )  # fmt: skip


def _largest(values: list[Any]) -> str:
    """The larger of both ends; empty unless both are known."""
    if not all(isinstance(each, Derived) for each in values):
        return EMPTY
    return cell(max(values, key=lambda each: each.value))


def _replacement(facts: Facts, element: Element) -> str:
    """Family, rating and voltage, then the trade's warning; none for a device that fails."""
    failed = [each for each in facts.of(element.name) if each.verdict == "fail"]
    if failed:
        return f"no label: {facts.verdicts(element.name)}"
    part: Any = element.part
    rating = stated(part, "rated_current", "A")
    breaks = interrupts(facts, element)
    volts = stated(part, "rated_voltage", "V")
    words = [
        clean(getattr(part, "family", None) or EMPTY), rating, volts and f"{volts} DC",
        breaks and f"breaks {breaks}",
    ]  # fmt: skip
    told = ", ".join(filter(None, words)) or BLANK
    return f"{clean(element.name)}: {told}. Replace with same family and rating only."


def _parallel(element: Element) -> str:
    """For emergencies, and for how long where its part states that."""
    times = for_a_time(element.part, "intermittent")
    limit = f"at most {times}" if times else f"at most {BLANK} s"
    return f"{clean(element.name)}: EMERGENCY ONLY, {limit}. Leave open in use."


def _has_remote_off(facts: Facts, source: Any) -> bool:
    operated = {each.operated_by for each in facts.system.elements()}
    return source.name in operated or source.part.chemistry in _LITHIUM


def _fields() -> Iterator[Field]:
    yield Field("label", "which kind", FILE, lambda r: r.kind)
    yield Field("at", "where it is stuck", FILE, lambda r: clean(r.at.name))
    yield Field("place", "where that stands", FILE, lambda r: place_of(r.at))
    yield Field("nominal", "voltage of the system there", STUDY, lambda r: r.nominal)
    yield Field("fault max", "largest available fault current", STUDY, lambda r: r.current)
    yield Field("calculated", "date of the calculation", STUDY, lambda r: r.calculated)
    yield Field("text", "what the label says", STUDY, lambda r: r.text)


_FIELDS = tuple(_fields())
