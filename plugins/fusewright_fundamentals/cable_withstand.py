"""A cable must outlast every fault and overload until its devices have cleared it.

Over the whole range of currents that some device must clear, not only the largest: a weak fault
that lasts long often does more harm. Each leg by itself; what a device lets pass for good is
cable-overload's business.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import (
    COMMON_PRACTICE,
    ROUNDING,
    Card,
    Judgement,
    Source,
    Unknown,
    compare,
    note,
    rule,
    unproven,
)
from fusewright_fundamentals.amounts import amps
from fusewright_fundamentals.cranking_path import cranking_note
from fusewright_fundamentals.heating import Heating, heating_of
from fusewright_fundamentals.heating_steps import only_bounded, reason_of, sides
from fusewright_fundamentals.worst_course import worst_course

CARD = Card(
    name="cable-withstand",
    title="Cable outlasts the fault",
    why="Until the device has opened, the fault heats the copper faster than it can cool.",
    wrong="A long thin cable on a fuse chosen for the motor: at its far end the fault is so weak "
    "that the fuse takes seconds; the same cable a metre from the bank, through a slow breaker.",
    right="A device that lets less energy through or opens earlier at that current, or a larger "
    "cable.",
    severity="fire",
    source=Source("IEC 60364-4-43:2008", clause="433.1 and 434.5.2", read=False),
)


@rule(CARD, each="cable")
def cable_withstand(cable: Any, study: Any) -> Iterator[Judgement] | None:
    """One judgement for each leg and each end that feeds the cable."""
    ranges = study.fault_range(cable)
    return _judgements(cable, study, ranges) if ranges else None


def _judgements(cable: Any, study: Any, ranges: Any) -> Iterator[Judgement]:
    for span in ranges:
        if span.exposed:
            yield _exposed(cable, study, span)
        elif span.missing:
            yield unproven(*span.missing, reason=f"fed from its {span.end}")
        elif isinstance(span.highest, Unknown):
            yield unproven(*span.highest.missing)
        elif span.highest.value > 0.0:
            for leg in _legs(cable, study):
                yield from _leg(cable, study, span, leg)


def _exposed(cable: Any, study: Any, span: Any) -> Judgement:
    names = ", ".join(source.name for source in span.exposed)
    reason = f"no device clears a fault fed from {names}: judged by source-protection"
    return cranking_note(cable, study) or note(reason, source=COMMON_PRACTICE)


def _legs(cable: Any, study: Any) -> Iterator[Any]:
    """Each leg of the cable; two alike are judged once."""
    legs = study.legs(cable)
    alike = len(legs) > 1 and (legs[0].part, legs[0].runs) == (legs[1].part, legs[1].runs)
    yield from legs[:1] if alike else legs


def _leg(cable: Any, study: Any, span: Any, leg: Any) -> Iterator[Judgement]:
    if leg.part is None:
        yield unproven(f"{cable.name}: return: what its path withstands")
        return
    heating = heating_of(cable, study, span, leg)
    if isinstance(heating, Unknown):
        yield unproven(*heating.missing, reason=f"{leg.name} leg")
        return
    hot = compare(heating.initial, at_most=heating.final, reason=f"{leg.name} leg, under load")
    yield hot if hot.verdict == "fail" else _worst(heating)
    if (lasting := _lasting(heating)) is not None:
        yield lasting


def _worst(heating: Heating) -> Judgement:
    worst = worst_course(heating)
    if isinstance(worst, Unknown):
        return unproven(*worst.missing, reason=f"{heating.leg.name} leg")
    found, required = sides(heating, worst)
    reason = reason_of(heating, worst)
    judgement = compare(found, at_most=required, reason=reason)
    if judgement.verdict == "fail" and heating.span.unsure and not _fails_at_most(heating):
        return unproven(*heating.span.unsure, reason=reason)
    if judgement.verdict == "fail" and (bounded := only_bounded(heating, worst)):
        return unproven(*bounded, reason=f"{reason}, by what a standard or physics allows")
    return judgement


def _fails_at_most(heating: Heating) -> bool:
    """Whether the largest fault alone, which is sure to flow, is too much."""
    severity = heating.course(heating.span.highest.value).severity
    return severity is None or severity > 1.0


def _lasting(heating: Heating) -> Judgement | None:
    """What no device is known to end, of the largest and of the weakest fault, and is too much.

    Of an overload that is other rules' business; and if nothing of the largest fault ends, that is
    the worst already.
    """
    for fault in (heating.span.highest, heating.span.lowest):
        if isinstance(fault, Unknown) or fault.value <= 0.0:
            continue
        course = heating.course(fault.value)
        if not course.endless or (fault is heating.span.highest and not course.last):
            continue
        reason = f"{heating.leg.name} leg, fault of {amps(course.current)}"
        if isinstance(heating.ampacity, Unknown):
            return unproven(*heating.ampacity.missing, reason=reason)
        if course.endless > heating.ampacity.value * (1 + ROUNDING):
            return unproven(*heating.endless(course.current), reason=reason)
    return None
