"""Electronics part a lithium bank at its limits; asked of the file."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, Rule, Source
from fusewright_iso_small_craft import lithium
from fusewright_iso_small_craft.editions import Edition
from fusewright_iso_small_craft.scope import iso_rule

SOURCE = Source(lithium.UNREAD, "management system, as the Hong Kong marine code cites it",
                read=False)
CARD = Card(
    name="lithium-management",
    title="Lithium battery management",
    why="A cell charged or drained too far, or too hot, is damaged for good and may burn.",
    wrong="A bank of bare cells on a charger.",
    right="Electronics that disconnect on temperature, voltage and current.",
    severity="paperwork",
    source=SOURCE,
    basis="standard",
)
QUESTION = "disconnects on temperature, high and low voltage, charge and discharge current"


def of(edition: Edition) -> Rule:  # noqa: ARG001
    """The rule, the same beside either edition of the pack."""

    @iso_rule(CARD, each="source")
    def lithium_management(battery: Any, study: Any) -> Judgement | None:
        """As stated; not read in the standard itself."""
        return lithium.judge_stated(battery, study, "battery_management", QUESTION, SOURCE)

    return lithium_management
