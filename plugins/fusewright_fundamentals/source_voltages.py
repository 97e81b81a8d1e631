"""Batteries that are joined in some condition must be of one voltage."""

from __future__ import annotations

from typing import Any

from coordination.rules import COMMON_PRACTICE, Card, Judgement, compare, passed, rule
from coordination.rules.kit.joined import is_battery
from coordination.rules.kit.stated import rating
from fusewright_fundamentals.joined import joined_batteries

CARD = Card(
    name="source-voltages",
    title="Batteries in parallel are of one voltage",
    why="The higher battery drives a current into the lower one that only resistance limits.",
    wrong="An emergency switch that joins a 24 V house bank to a 12 V start battery.",
    right="A converter between them, or batteries of the same voltage.",
    severity="fire",
    source=COMMON_PRACTICE,
)


@rule(CARD, each="source")
def source_voltages(battery: Any, study: Any) -> list[Judgement] | None:
    """No other battery may rest at more than the voltage this one is charged to.

    Batteries of one part are of one voltage. A full one beside an empty one is another matter.
    """
    if not is_battery(battery.name, study):
        return None
    others = [
        study.system.sources[point]
        for point in joined_batteries(battery.name, study)
        if point != battery.name
    ]
    return [_pair(battery, other) for other in others] or None


def _pair(battery: Any, other: Any) -> Judgement:
    own, its = battery.part, other.part
    if own.id == its.id and own.nominal_voltage is not None:
        return passed(f"the same part as {other.name}")
    limit = rating(own, "charge_voltage", "voltage it is charged to", "U_charge", "V")
    rest = rating(its, "emf.max", f"highest resting voltage of {other.name}", "E_max", "V")
    return compare(rest, at_most=limit, reason=f"joined to {other.name}")
