"""Which batteries the lithium standard concerns, and how its requirements are asked for.

None of them shows in a drawing: the file states them once, for every lithium battery.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import Judgement, fail, passed, unproven
from fusewright_us_small_craft.options import MEANING, asked, stated

LITHIUM = ("lfp", "nmc", "lto")


def judge_stated(battery: Any, study: Any, option: str) -> Judgement | None:
    """By a yes/no option for all, answered on the first lithium battery.

    A battery that does not state its chemistry cannot be told.
    """
    if battery.part is None:
        return None
    if battery.part.chemistry is None:
        return unproven(f"{battery.part.id}: chemistry")
    if battery is not _first(study):
        return None
    answer = stated(study, option)
    if answer is None:
        return unproven(asked(option))
    meaning = MEANING[option]
    return passed(f"stated: {meaning}") if answer else fail(f"stated not to hold: {meaning}")


def _first(study: Any) -> Any:
    """The first lithium battery of the file; None where there is none."""
    parts = ((each, each.part) for each in study.system.sources.values())
    lithium = (each for each, part in parts if part is not None and part.chemistry in LITHIUM)
    return next(lithium, None)
