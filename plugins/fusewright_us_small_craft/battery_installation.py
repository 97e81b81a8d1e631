"""Law: how a battery is held, covered and aired, as far as the file states it."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, fail, passed, unproven
from fusewright_us_small_craft.options import asked, stated
from fusewright_us_small_craft.scope import law, law_rule

CARD = Card(
    name="battery-installation",
    title="Law: battery held, covered and aired",
    why="A battery that shifts shears its cables; a spanner across bare terminals welds itself on.",
    wrong="A strap round one of two batteries; a spring clip as terminal; one under a filter.",
    right="At most 1 in of movement under twice its weight, 90 lbf at most; covered terminals; "
    "12 in from bare metal fuel parts or a shield between; hydrogen led out of the boat.",
    severity="damage",
    source=law("183.420(a) to (g)"),
    basis="law",
)


@law_rule(CARD, each="source")
def battery_installation(battery: Any, study: Any) -> Judgement | None:
    """One statement for all, answered on the first battery: a drawing shows nothing of it."""
    batteries = (each for each in study.system.sources.values() if each.part is not None)
    if battery is not next(batteries, None):
        return None
    done = stated(study, "batteries_installed")
    if done is None:
        return unproven(asked("batteries_installed"))
    return passed("as stated for every battery") if done else fail("not as 183.420 asks, as stated")
