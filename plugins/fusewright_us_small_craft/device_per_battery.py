"""Practice from July 2025: above 500 Ah in parallel, a device at each battery beside the main."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, compare, fail, given, passed, rule, unproven
from fusewright_us_small_craft.scope import E11_2025, practice
from fusewright_us_small_craft.walk import bank, zone

CARD = Card(
    name="device-per-battery",
    title="Practice: a device at each battery of a large bank",
    why="When one battery fails, its neighbours feed it with everything they have: the main "
    "device, on the far side of the joint, sees nothing of it.",
    wrong="Four batteries on one pair of posts behind a single main fuse.",
    right="A fuse between each battery and the joint, beside the main one.",
    severity="fire",
    source=practice(E11_2025, "E-11.10.1.4.1"),
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
    near = zone(battery.name, study)
    others = [each.name for each in near.batteries(study) if each is not battery]
    if not others and near.devices:
        return passed(f"{near.devices[0][0].name} stands between it and the others")
    if known <= LARGEST.value:
        return unproven(*silent, reason="a bank of more than 500 Ah needs a device at each battery")
    if not others:
        return fail("no device at it")
    return fail(f"no device between it and {', '.join(others)}, bank of more than 500 Ah")
