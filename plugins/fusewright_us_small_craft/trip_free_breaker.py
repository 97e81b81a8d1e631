"""Law: a breaker is trip-free and reset by hand."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, fail, passed, unproven
from fusewright_us_small_craft.options import asked, field, of_part, stated
from fusewright_us_small_craft.scope import law, law_rule

CARD = Card(
    name="trip-free-breaker",
    title="Law: breakers trip free and stay tripped",
    why="A breaker that resets itself feeds a fault again and again; one that can be held closed "
    "is no protection at all.",
    wrong="A thermal breaker that resets itself, sold for cars.",
    right="A breaker stated to be trip-free, reset by hand.",
    severity="fire",
    source=law("183.455(a)"),
    basis="law",
)


@law_rule(CARD, each="breaker")
def trip_free_breaker(breaker: Any, study: Any) -> Judgement:
    """What the part states of tripping and resetting; the file may state the latter for all."""
    by_hand = of_part(breaker.part, "reset_by_hand")
    if by_hand is None:
        by_hand = stated(study, "breakers_reset_by_hand")
    if breaker.part.trip_free is False:
        return fail("not trip-free")
    if by_hand is False:
        return fail("resets itself")
    missing = [] if breaker.part.trip_free else [f"{breaker.part.id}: trip_free"]
    if by_hand is None:
        either = field(breaker.part, "reset_by_hand")
        missing.append(f"{either}, or {asked('breakers_reset_by_hand')}")
    return unproven(*missing) if missing else passed("trip-free, reset by hand")
