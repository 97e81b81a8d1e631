"""Law: engines with grounded starters are tied by a conductor that carries a starter's current."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, fail, passed, unproven
from fusewright_us_small_craft.options import asked, stated
from fusewright_us_small_craft.scope import law, law_rule

CARD = Card(
    name="engine-ground-tie",
    title="Law: common conductor between engines",
    why="When one engine's ground strap is off, its starter's current looks for a way through the "
    "other engine: through control cables and fuel lines.",
    wrong="Twin petrol engines joined by nothing but their thin instrument wiring.",
    right="One conductor between the cranking circuits that carries each starter's current.",
    severity="fire",
    source=law("183.415"),
    basis="law",
)


@law_rule(CARD, each="equipment")
def engine_ground_tie(starter: Any, study: Any) -> Judgement | None:
    """Asked of every starter of a boat that has several."""
    starters = [each for each in study.system.equipment.values() if each.cranking]
    if not starter.cranking or len(starters) < 2:
        return None
    tied = stated(study, "engines_tied")
    if tied is None:
        return unproven(asked("engines_tied"))
    return passed("tied, as stated") if tied else fail("no common conductor, as stated")
