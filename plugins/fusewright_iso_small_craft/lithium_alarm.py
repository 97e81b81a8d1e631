"""A warning comes before a lithium bank cuts off; asked of the file."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, Rule, Source
from fusewright_iso_small_craft import lithium
from fusewright_iso_small_craft.editions import Edition
from fusewright_iso_small_craft.scope import iso_rule

SOURCE = Source(lithium.UNREAD, "clauses 5 to 8, alarm", read=False)
CARD = Card(
    name="lithium-alarm",
    title="Warning before cut-off",
    why="A boat that goes dark without a warning, goes dark when it needs its engine and lights.",
    wrong="A battery whose only message is silence.",
    right="An audible or visual alarm before the electronics disconnect.",
    severity="paperwork",
    source=SOURCE,
    basis="standard",
)
QUESTION = "an audible or visual alarm comes before the disconnection"


def of(edition: Edition) -> Rule:  # noqa: ARG001
    """The rule, the same beside either edition of the pack."""

    @iso_rule(CARD, each="source")
    def lithium_alarm(battery: Any, study: Any) -> Judgement | None:
        """As stated; from memory."""
        return lithium.judge_stated(battery, study, "alarm_before_cutoff", QUESTION, SOURCE)

    return lithium_alarm
