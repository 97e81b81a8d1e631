"""Practice: a remote switch breaks the coil supply of a lithium bank's contactor itself."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, rule
from fusewright_us_small_craft.lithium import judge_stated
from fusewright_us_small_craft.scope import E13_2025, practice

CARD = Card(
    name="lithium-remote-switch",
    title="Practice: remote switch breaks the coil supply",
    why="A switch that only asks the electronics to open depends on the very thing that failed.",
    wrong="A remote button wired to an input of the battery electronics.",
    right="A switch in the supply of a monostable contactor, normally open; or a switch by hand.",
    severity="damage",
    source=practice(E13_2025, "E-13.6.7.1.1"),
    basis="practice",
)


@rule(CARD, each="source")
def lithium_remote_switch(battery: Any, study: Any) -> Judgement | None:
    """One answer for every lithium battery."""
    return judge_stated(battery, study, "remote_switch_breaks_coil")
