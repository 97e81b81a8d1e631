"""Whatever is plugged in behind it, a cable's protection must not let more pass than it bears."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, Source, compare, fail, rule
from fusewright_fundamentals.cranking_path import cranking_note
from fusewright_fundamentals.legs import leg_of
from fusewright_fundamentals.overload_bound import Bare, overload_bound

CARD = Card(
    name="cable-overload",
    title="Cable is protected against overload",
    why="A load may grow or a motor stall; only a device rated at or below the cable's ampacity "
    "keeps the cable within its temperature. Whether the device opens in time at 1.45 times the "
    "ampacity, and at a weak fault, is a matter of its curve and is not judged by this rule.",
    wrong="A fuse chosen for the inverter's surge, not for the cable; a smaller cable branching "
    "off behind a main fuse; a module's output trusted to switch off although it may fail shorted.",
    right="A device rated at or below the cable's ampacity in its place, in the same circuit; or a "
    "larger cable.",
    severity="fire",
    source=Source("IEC 60364-4-43:2008", clause="433.1, rated current <= Iz", read=False),
)


@rule(CARD, each="cable")
def cable_overload(cable: Any, study: Any) -> Judgement | None:
    """The bound its protection sets against the ampacity of the positive leg.

    The return leg is judged by return-conductor.
    """
    bound = overload_bound(cable, study)
    if bound is None:
        return None
    if isinstance(bound, Bare):
        reason = f"no device limits the current from {', '.join(bound.batteries)}"
        return cranking_note(cable, study) or fail(reason)
    limit = study.ampacity(cable, leg_of(cable, study, "positive"))
    return compare(bound, at_most=limit, reason=f"ampacity basis: {study.basis.name}")
