"""What is drawn from an inlet for hours must not open the breaker upstream, or heat the cord."""

from __future__ import annotations

from typing import Any

from coordination.rules import COMMON_PRACTICE, Card, Judgement, Unknown, compare, rule, unproven

CARD = Card(
    name="shore-overload",
    title="Shore supply carries loads and charger together",
    why="A charger in bulk takes most of a cord by itself; with the galley on, the breaker on the "
    "dock opens, or a worn plug burns for hours without opening it.",
    wrong="An input limit that counts only the charger, or is set to the cord of the last harbour.",
    right="A limit that counts all that comes in, set to what breaker and cord carry for hours; "
    "less load at a time.",
    severity="fire",
    source=COMMON_PRACTICE,
)


@rule(CARD, each="inlet")
def shore_overload(inlet: Any, study: Any) -> Judgement | None:
    """All that is drawn, as the input limit lets it, against the least of what carries it.

    Where the file does not state by which share of its rating the breaker is loaded for hours: what
    fits 80 % passes, what exceeds 100 % fails, and between them it is unproven.
    """
    budget = study.shore(inlet)
    if budget is None:
        return None
    # What fits with everything at its own limit needs no input limit.
    drawn = budget.drawn
    free = compare(budget.whole, at_most=budget.may)
    if free.verdict == "pass" and isinstance(drawn, Unknown):
        drawn = budget.whole
    strict = compare(drawn, at_most=budget.may)
    if strict.verdict != "fail" or inlet.continuous is not None:
        return strict
    loose = compare(drawn, at_most=budget.at_most)
    if loose.verdict == "pass":
        asked = "continuous (share of the breaker's rating for hours: 80 % or 100 %)"
        return unproven(f"{inlet.name}: {asked}")
    return loose
