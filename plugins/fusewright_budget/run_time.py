"""What must run for hours on batteries alone must get them."""

from __future__ import annotations

from typing import Any

from coordination.rules import COMMON_PRACTICE, Card, Judgement, compare, rule
from coordination.rules.kit.stated import written

CARD = Card(
    name="run-time",
    title="Bank lasts as long as it must",
    why="Rated capacity is that of a new battery in a warm room, emptied whole and slowly: cold, "
    "tolerance, the depth that may be used and the current each take a part of it.",
    wrong="Ampere-hours on the label over the amperes of one load.",
    right="A larger bank, less load in this condition, or a warmer place.",
    severity="outage",
    source=COMMON_PRACTICE,
)


@rule(CARD, each="equipment")
def run_time(equipment: Any, study: Any) -> Judgement | None:
    """The least run time of the equipment's bank against `must_run`, where it runs at all."""
    off = study.condition.draw.get(equipment.name) == 0.0
    if equipment.must_run is None or off or equipment.name in study.condition.without:
        return None
    asked = written(equipment, "must_run", "it must run for", "t_must", "s")
    return compare(study.run_time_of(equipment), at_least=asked)
