"""What a venting cell does to the people aboard is thought through on paper; asked of the file."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, Rule, Source
from fusewright_iso_small_craft import lithium
from fusewright_iso_small_craft.editions import Edition
from fusewright_iso_small_craft.scope import iso_rule

SOURCE = Source("ISO 23625:2025", "venting of cells, safety philosophy")
CARD = Card(
    name="lithium-venting",
    title="Venting of lithium cells",
    why="A venting cell must not endanger anybody. The standard prescribes neither compartment nor "
    "duct, but a written safety philosophy for the battery space.",
    wrong="A sealed box under a berth, and nothing written down.",
    right="A documented safety philosophy for the battery space.",
    severity="paperwork",
    source=SOURCE,
    basis="standard",
)
QUESTION = "a documented safety philosophy says where vented gas goes"


def of(edition: Edition) -> Rule:  # noqa: ARG001
    """The rule, the same beside either edition of the pack."""

    @iso_rule(CARD, each="source")
    def lithium_venting(battery: Any, study: Any) -> Judgement | None:
        """As stated; asked by the standard of 2025 alone."""
        if lithium.edition(study) != "2025":
            return None
        return lithium.judge_stated(battery, study, "safety_philosophy", QUESTION, SOURCE)

    return lithium_venting
