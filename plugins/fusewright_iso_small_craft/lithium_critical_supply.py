"""What must stay alive does so when a lithium bank cuts off; asked of the file."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, Rule, Source
from fusewright_iso_small_craft import lithium
from fusewright_iso_small_craft.editions import Edition
from fusewright_iso_small_craft.scope import iso_rule

SOURCE = Source(lithium.UNREAD, "clauses 5 to 8, critical loads", read=False)
CARD = Card(
    name="lithium-critical-supply",
    title="Supply to critical loads is kept",
    why="Navigation lights, bilge pumps and radio must outlive the cut-off of the bank.",
    wrong="One bank, one contactor, everything behind it.",
    right="A second source for what must stay alive.",
    severity="paperwork",
    source=SOURCE,
    basis="standard",
)
QUESTION = "critical loads keep their supply when the bank disconnects"


def of(edition: Edition) -> Rule:  # noqa: ARG001
    """The rule, the same beside either edition of the pack."""

    @iso_rule(CARD, each="source")
    def lithium_critical_supply(battery: Any, study: Any) -> Judgement | None:
        """As stated; from memory."""
        return lithium.judge_stated(battery, study, "critical_supply_kept", QUESTION, SOURCE)

    return lithium_critical_supply
