"""Practice: lithium cells or batteries are tested to a standard that is named."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, rule
from fusewright_us_small_craft.lithium import judge_stated
from fusewright_us_small_craft.scope import E13, practice

CARD = Card(
    name="lithium-cell-standard",
    title="Practice: lithium tested to a standard",
    why="An untested cell may answer a crush or a short circuit with fire.",
    wrong="Bare cells of unknown origin in a wooden box.",
    right="Cells or batteries tested to one of the seven standards named.",
    severity="paperwork",
    source=practice(E13, "E-13.5.4"),
    basis="practice",
)


@rule(CARD, each="source")
def lithium_cell_standard(battery: Any, study: Any) -> Judgement | None:
    """One answer for every lithium battery."""
    return judge_stated(battery, study, "cells_tested")
