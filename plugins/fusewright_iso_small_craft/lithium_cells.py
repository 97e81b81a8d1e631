"""Cells of a lithium bank conform to IEC 62619 and IEC 62620; asked of the file."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, Rule, Source
from fusewright_iso_small_craft import lithium
from fusewright_iso_small_craft.editions import Edition
from fusewright_iso_small_craft.scope import iso_rule

SOURCE = Source("ISO 23625:2025", "cells: IEC 62619 and IEC 62620")
CARD = Card(
    name="lithium-cells",
    title="Lithium cells conform to IEC 62619 and 62620",
    why="A cell that was never crushed, overcharged and shorted on a bench may burn in a boat.",
    wrong="Bare cells of unknown origin in a wooden box.",
    right="The maker's declaration for both standards, in the boat's papers.",
    severity="paperwork",
    source=SOURCE,
    basis="standard",
)
QUESTION = "cells conform to both IEC 62619 and IEC 62620"


def of(edition: Edition) -> Rule:  # noqa: ARG001
    """The rule, the same beside either edition of the pack."""

    @iso_rule(CARD, each="source")
    def lithium_cells(battery: Any, study: Any) -> Judgement | None:
        """As stated; the Technical Specification of 2021 is not known to name both."""
        if lithium.edition(study) != "2025":
            return None
        return lithium.judge_stated(battery, study, "cells_conform", QUESTION, SOURCE)

    return lithium_cells
