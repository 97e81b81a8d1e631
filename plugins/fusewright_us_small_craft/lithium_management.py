"""Practice: every lithium battery has electronics that watch over its cells."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, rule
from fusewright_us_small_craft.lithium import judge_stated
from fusewright_us_small_craft.scope import E13, practice

CARD = Card(
    name="lithium-management",
    title="Practice: lithium battery management",
    why="A cell charged or drained too far, or charged in frost, is damaged for good and may burn.",
    wrong="A bank of bare cells on a charger.",
    right="Electronics that limit voltage, current, temperature, balance cells, report faults.",
    severity="fire",
    source=practice(E13, "management system"),
    basis="practice",
)


@rule(CARD, each="source")
def lithium_management(battery: Any, study: Any) -> Judgement | None:
    """One answer for every lithium battery."""
    return judge_stated(battery, study, "battery_management")
