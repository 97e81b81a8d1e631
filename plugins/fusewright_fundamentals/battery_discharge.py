"""A battery must be allowed to give, for as long as it lasts, what the system draws from it."""

from __future__ import annotations

from typing import Any

from coordination.rules import COMMON_PRACTICE, Card, Judgement, compare, rule
from coordination.rules.kit.stated import rating

CARD = Card(
    name="battery-discharge",
    title="Battery may deliver its share",
    why="Above the continuous current its maker allows, a battery's electronics switch it off: "
    "everything it feeds goes dark, and its neighbours take over its share and may follow.",
    wrong="Parallel batteries with unequal leads; a bank sized for all its batteries, run on one.",
    right="Equal leads, more batteries, or a condition in which load is shed.",
    severity="outage",
    source=COMMON_PRACTICE,
)


@rule(CARD, each="source")
def battery_discharge(source: Any, study: Any) -> Judgement | None:
    """Discharge current in this condition against the continuous one its maker allows."""
    if source.part is None or source.name in study.condition.without:
        return None
    allowed = rating(
        source.part, "discharge.continuous", "continuous discharge current", "I_dis", "A"
    )
    return compare(study.battery_current(source), at_most=allowed)
