"""A battery must not be charged with more than its maker allows."""

from __future__ import annotations

from typing import Any

from coordination.rules import COMMON_PRACTICE, Card, Judgement, compare, rule

CARD = Card(
    name="charge-limit",
    title="Battery may take what charges it",
    why="Above the charging current its maker allows, a lithium cell plates metal and its "
    "electronics open; what then charges is left without a battery.",
    wrong="Shore charger, alternator and solar together on one pack after the other has tripped.",
    right="Lower limits at the chargers, more batteries, or a charger that is told of the limit.",
    severity="damage",
    source=COMMON_PRACTICE,
)


@rule(CARD, each="source")
def charge_limit(source: Any, study: Any) -> Judgement | None:
    """All that limited sources give while nothing is drawn, as its bank shares it."""
    if source.part is None or source.name in study.condition.without:
        return None
    current = study.charging_current(source)
    if getattr(current, "value", None) == 0.0:
        return None
    return compare(current, at_most=study.charge_limit(source))
