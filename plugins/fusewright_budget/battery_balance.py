"""Batteries side by side should each give about as much as the others."""

from __future__ import annotations

from typing import Any

from coordination.rules import COMMON_PRACTICE, Card, Judgement, compare, given, rule
from fusewright_budget.in_bank import share_of

CARD = Card(
    name="battery-balance",
    title="Batteries share alike",
    why="The battery with the shortest way gives most, ages first, and then leaves its share to "
    "the others; the stiffer the batteries are, the more their leads decide.",
    wrong="Batteries in a row, joined one to the next, with the load taken at one end; a battery "
    "added later on longer leads.",
    right="Leads of equal length and size to one bar, or the load taken at opposite ends.",
    severity="outage",
    source=COMMON_PRACTICE,
)

#: Share over the average that is let pass, by custom: 10 % to 15 %.
LIMIT = 1.15


@rule(CARD, each="source")
def battery_balance(source: Any, study: Any) -> Judgement | None:
    """A battery's share of the full load over the average of its bank, in the worse bound.

    A bank of one has nothing to share, and one from which nothing is drawn shares nothing.
    """
    share = share_of(source, study)
    if share is None:
        return None
    limit = given("share over the average", "r_max", LIMIT, "", COMMON_PRACTICE, f"{LIMIT:g}")
    return compare(share.ratio, at_most=limit)
