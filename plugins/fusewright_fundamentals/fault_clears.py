"""The weakest fault in what a device protects must still open it in time."""

from __future__ import annotations

from typing import Any

from coordination.rules import (
    DEFINITION,
    Card,
    Judgement,
    Source,
    Unknown,
    compare,
    given,
    note,
    rule,
    unproven,
)

CARD = Card(
    name="fault-clears",
    title="The weakest fault opens the device in time",
    why="At the far end of a long cable, from a tired battery, a short circuit may draw so little "
    "that the device takes minutes, or never opens, while the fault burns.",
    wrong="A 100 A fuse before 20 m of 6 mm²; a battery's electronics trusted to switch off.",
    right="A smaller or faster device, a larger cable, or another device further out.",
    severity="fire",
    source=Source("IEC 60364-4-43:2008", clause="434.5.2, disconnection within 5 s", read=False),
)

#: Longest time [s] in which the weakest fault must have been cleared.
LONGEST = 5.0


@rule(CARD, each=("device", "channel"))
def fault_clears(device: Any, study: Any) -> Judgement | None:
    """Batteries' own electronics count as no device; a channel only if it cannot fail shorted."""
    if device.kind == "channel" and device.part.fails_shorted is not False:
        return None
    current = study.fault_min_through(device)
    if not isinstance(current, Unknown) and current.value == 0.0:
        return _without_battery(device, study)
    rises = [study.time_constant(point) for point in (device.start, device.end)]
    unknown = next((rise for rise in rises if isinstance(rise, Unknown)), None)
    slowest = unknown or max(rises, key=lambda rise: rise.value)
    clearing = study.clearing(device, current, slowest)
    time = clearing.time
    allowed = given("longest time to clear a fault", "t_max", LONGEST, "s", CARD.source)
    if isinstance(time, Unknown):
        return unproven(*time.missing, reason="weakest fault in what it protects")
    judgement = compare(time, at_most=allowed)
    if judgement.verdict == "fail" and not clearing.own:
        reason = f"a standard or physics only says: within {time.value:.3g} s"
        return unproven(f"{device.part.id}: its own clearing curve", reason=reason)
    return judgement


def _without_battery(device: Any, study: Any) -> Judgement | None:
    """No battery feeds it: open in this condition, or fed by sources that limit themselves.

    Told of the normal condition; where batteries are out for a while, others are judged with them.
    """
    if study.condition.name != "normal" or not any(study.crossings(device)):
        return None
    return note(
        "fed by current-limited sources only: no fault current can be counted on to open it",
        source=DEFINITION,
    )
