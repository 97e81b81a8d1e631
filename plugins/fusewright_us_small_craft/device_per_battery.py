"""Practice from July 2025: above 500 Ah in parallel, a device at each battery beside the main."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, compare, fail, given, passed, rule, unproven
from coordination.rules.kit.zone import zone
from fusewright_us_small_craft.scope import E11_2025, practice
from fusewright_us_small_craft.walk import bank, spread

CARD = Card(
    name="device-per-battery",
    title="Practice: a device at each battery of a large bank",
    why="When one battery fails, its neighbours feed it with everything they have: the main "
    "device, on the far side of the joint, sees nothing of it.",
    wrong="Four batteries on one pair of posts behind a single main fuse.",
    right="A fuse between each battery and the joint, beside the main one.",
    severity="fire",
    source=practice(E11_2025, "E-11.10.1.4.1"),
    basis="practice",
)
LARGEST = given("largest bank without", "Q_max", 500.0 * 3600, "A·s", CARD.source, "500 Ah")


@rule(CARD, each="source")
def device_per_battery(battery: Any, study: Any) -> Judgement | None:
    """Of banks of several batteries, in this condition; a single battery has no neighbours."""
    if battery.part is None or battery.name in study.condition.without:
        return None
    joined = bank(battery, study)
    if len(joined) < 2:
        return None
    silent = tuple(
        dict.fromkeys(f"{b.part.id}: capacity" for b in joined if b.part.capacity is None)
    )
    known = sum(b.part.capacity for b in joined if b.part.capacity is not None)
    total = given("capacity of the bank", "Q", known, "A·s", CARD.source)
    if known <= LARGEST.value and not silent:
        return compare(total, at_most=LARGEST, reason="no device at each battery asked for")
    reason = _lacking(battery, study)
    if reason is None:
        return passed("a device of its own stands between it and the joint")
    if known <= LARGEST.value:
        return unproven(*silent, reason=f"above 500 Ah: {reason}")
    return fail(f"bank of more than 500 Ah: {reason}")


def _lacking(battery: Any, study: Any) -> str | None:
    """Why the battery has no device of its own before the joint; None where it has one.

    The joint is a bus, or where devices of loads together as large as the way to the others
    begin: a small fuse at a battery's post does not make one.
    """
    near = zone(battery.name, study)
    if others := [each.name for each in near.batteries(study) if each is not battery]:
        return f"no device between it and {', '.join(others)}"
    if any(not getattr(load, "cranking", False) for load in near.loads(study)):
        return "it feeds something with no device between"
    if not near.met:
        return "no device at it"
    if any(point in study.system.busbars for point in near.lengths):
        return "no device between it and the bus"
    ways = {True: 0.0, False: 0.0}
    for device, _ in near.met:
        ends = [point for point in (device.start, device.end) if point not in near.lengths]
        beyond = spread(ends, study, closed=near.lengths)
        rated = device.part.rated_current
        ways[bool(beyond.batteries(study))] += float("inf") if rated is None else rated
    return "no device between it and the main one" if ways[False] >= ways[True] else None
