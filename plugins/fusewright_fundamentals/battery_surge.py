"""A battery's electronics must not switch off while equipment starts.

They are no protective device; but when they open, everything behind goes dark.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from coordination.rules import (
    COMMON_PRACTICE,
    Card,
    Derived,
    Judgement,
    Unknown,
    Value,
    compare,
    derive,
    rule,
    unproven,
)
from coordination.rules.kit.joined import elements_at
from coordination.rules.kit.stated import rating, renamed
from fusewright_fundamentals.amounts import amps
from fusewright_fundamentals.surges import draws, flows_to, moments, through

CARD = Card(
    name="battery-surge",
    title="Battery stays on while the equipment starts",
    why="A pack's electronics switch off above the maker's peak current, or its contactor welds, "
    "long before a fuse notices. Surges are held against the continuous or the peak discharge "
    "rating; an inrush above both may trip the electronics: nobody states how soon.",
    wrong="Two packs that carry a surge together, and one of them alone when the other is out.",
    right="A battery rated for the peak, a precharge resistor, or a condition in which load is "
    "shed.",
    severity="outage",
    source=COMMON_PRACTICE,
)

#: Chemistries without electronics that could switch off.
PLAIN = ("lead-acid flooded", "lead-acid agm", "lead-acid gel", "nicd")


@rule(CARD, each="source")
def battery_surge(source: Any, study: Any) -> Iterator[Judgement]:
    """Each moment of each piece of equipment, then its inrush; as far as this battery shares it."""
    part = source.part
    if part is None or part.chemistry in PLAIN or source.name in study.condition.without:
        return
    for equipment in study.system.equipment.values():
        rows, inrush = tuple(moments(equipment)), study.inrush(equipment)
        if not draws(equipment, study) or not (rows or inrush):
            continue
        share = _share(source, equipment, study)
        if share is None or not flows_to(share):
            continue
        load = renamed(study.battery_current(source), "I")
        for field, row in rows:
            current = through(load, share, field, equipment, study)
            reason = f"{field} of {equipment.name} for {row.time:g} s"
            yield _judged(part, current, row.time, reason)
        if inrush is not None:
            yield _inrush(source, inrush, share, equipment)


def _share(source: Any, equipment: Any, study: Any) -> Value | None:
    """Share [1] that this battery gives: what leaves it by its leads, never more than all."""
    leads = [study.share(element, equipment) for element in elements_at(source.name, study)]
    if len(leads) < 2:
        return leads[0] if leads else None
    named = [renamed(share, f"s_{number}") for number, share in enumerate(leads, 1)]
    formula = f"min(1, {' + '.join(f's_{number}' for number in range(1, len(leads) + 1))})"
    return derive(
        lambda *each: min(1.0, sum(each)), f"share of {source.name}, at most", "s", "", formula,
        *named,
    )  # fmt: skip


def _judged(part: Any, current: Value, time: float, reason: str) -> Judgement:
    """Against the larger of the ratings that hold for this time [s]."""
    peak = None if part.discharge is None else part.discharge.peak
    fields = ["discharge.continuous"]
    if peak is not None and peak.time >= time:
        fields.append("discharge.peak.current")
    allowed = _largest(part, fields)
    if isinstance(current, Unknown) or current.value <= allowed.value:
        return compare(current, at_most=allowed, reason=reason)
    if peak is None:
        return unproven(f"{part.id}: discharge.peak", reason=reason)
    if current.value <= peak.current:
        return unproven(f"{part.id}: discharge.peak for >= {time:g} s", reason=reason)
    limit = rating(part, "discharge.peak.current", "peak discharge", "I_pk", "A")
    return compare(current, at_most=limit, reason=reason)


def _largest(part: Any, fields: Iterable[str]) -> Derived:
    """The largest of several stated ratings [A]; 0 where none is stated."""
    values = (rating(part, field, "allowed discharge", "I_d", "A") for field in fields)
    known = [value for value in values if isinstance(value, Derived)]
    nothing = Derived("allowed discharge: not stated", "I_d", 0.0, "A")
    return max(known, key=lambda value: value.value, default=nothing)


def _inrush(source: Any, inrush: Any, share: Value, equipment: Any) -> Judgement:
    part, reason = source.part, f"inrush of {equipment.name}"
    current = derive(
        lambda amperes, part: amperes * part, f"{reason} from {source.name}", "I", "A",
        "I_peak × s", renamed(inrush.peak, "I_peak"), renamed(share, "s"),
    )  # fmt: skip
    allowed = _largest(part, ("discharge.peak.current", "discharge.continuous"))
    if isinstance(current, Unknown) or current.value <= allowed.value:
        return compare(current, at_most=allowed, reason=reason)
    missing = (
        f"{part.id}: discharge.peak >= {amps(current.value)}, or {equipment.name}: "
        "inrush.resistance with its precharge"
    )
    return unproven(missing, reason=f"{reason} may trip its electronics")
