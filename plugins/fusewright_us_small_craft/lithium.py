"""Which batteries the lithium standard concerns, and how its requirements are asked for.

None of them shows in a drawing: the file states them once, for every lithium battery.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import Judgement, fail, passed, unproven
from fusewright_us_small_craft.options import MEANING, asked, stated

LITHIUM = ("lfp", "nmc", "lto")


def judge_stated(battery: Any, study: Any, option: str) -> Judgement | None:
    """By a yes/no option; a battery that does not state its chemistry cannot be told."""
    if battery.part is None:
        return None
    if battery.part.chemistry is None:
        return unproven(f"{battery.part.id}: chemistry")
    if battery.part.chemistry not in LITHIUM:
        return None
    answer = stated(study, option)
    if answer is None:
        return unproven(asked(option))
    meaning = MEANING[option]
    return passed(f"stated: {meaning}") if answer else fail(f"stated not to hold: {meaning}")
