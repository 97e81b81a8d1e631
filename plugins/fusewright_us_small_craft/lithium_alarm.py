"""Practice: a warning before the electronics of a lithium battery cut off."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, rule
from fusewright_us_small_craft.lithium import judge_stated
from fusewright_us_small_craft.scope import E13, practice

CARD = Card(
    name="lithium-alarm",
    title="Practice: warning before cut-off",
    why="A boat that goes dark without a warning, goes dark when it needs its engine and lights.",
    wrong="A battery whose only message is silence.",
    right="An audible or visual warning before the electronics disconnect.",
    severity="outage",
    source=practice(E13, "warning before disconnection"),
    basis="practice",
)


@rule(CARD, each="source")
def lithium_alarm(battery: Any, study: Any) -> Judgement | None:
    """One answer for every lithium battery."""
    return judge_stated(battery, study, "alarm_before_cutoff")
