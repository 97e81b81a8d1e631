"""A polarised breaker must only ever carry current from its + terminal.

Its arc chute works in one direction. Current that can cross both ways, or the wrong way, needs a
breaker that is not polarised. Which ways there are in a condition, is the study's business.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import COMMON_PRACTICE, Card, Judgement, fail, passed, rule, unproven

CARD = Card(
    name="breaker-polarity",
    title="A polarised breaker breaks one way only",
    why="Its magnet blows the arc into the chute; reversed current blows it into the mechanism.",
    wrong="A breaker marked + and - between a battery and a bus that another battery feeds too.",
    right="A breaker that is not polarised, or a fuse, wherever current can cross both ways.",
    severity="fire",
    source=COMMON_PRACTICE,
)


@rule(CARD, each="breaker")
def breaker_polarity(breaker: Any, study: Any) -> Judgement:
    """`plus_towards` names the end where the + terminal lies: current must enter there.

    A breaker that does not say whether it is polarised passes only where it would pass if it were.
    """
    polarised = breaker.part.polarised
    if polarised is False:
        return passed("not polarised")
    forward, backward = study.crossings(breaker)
    if not (forward or backward):
        return passed("no current can cross it")
    if forward and backward:
        if polarised is None:
            return unproven(f"{breaker.part.id}: polarised", reason="current can cross both ways")
        return fail("polarised, and current can cross both ways")
    return _one_way(breaker, "start" if forward else "end")


def _one_way(breaker: Any, entry: str) -> Judgement:
    """The verdict where current can enter at one end only."""
    if breaker.plus_towards == entry:
        return passed(f"current can only enter at its + terminal ({entry})")
    known = breaker.part.polarised is not None
    if breaker.plus_towards is None:
        missing = () if known else (f"{breaker.part.id}: polarised",)
        return unproven(*missing, f"{breaker.name}: plus_towards")
    if not known:
        return unproven(f"{breaker.part.id}: polarised", reason="current enters at its - terminal")
    return fail("polarised, and current enters at its - terminal")
