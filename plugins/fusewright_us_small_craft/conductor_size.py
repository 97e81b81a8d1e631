"""Law: no conductor so thin that it breaks before its device opens."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, note
from fusewright_us_small_craft.cranking import is_cranking
from fusewright_us_small_craft.scope import law, law_rule
from fusewright_us_small_craft.size_limits import judge_size

CARD = Card(
    name="conductor-size",
    title="Law: smallest conductor",
    why="A thin conductor breaks by vibration and chafe, however little it carries.",
    wrong="A 20 AWG sense lead run alone through a bilge; an 18 AWG core stripped for a yard.",
    right="16 AWG alone; 18 AWG in a sheath with others, out of it for 30 in at most.",
    severity="damage",
    source=law("183.425(d), (e), (f)"),
    basis="law",
)


@law_rule(CARD, each="cable")
def conductor_size(cable: Any, study: Any) -> Judgement | Iterator[Judgement]:
    """Communications, navigation electronics, pigtails are exempt; the drawing shows none."""
    if is_cranking(cable, study):
        return note("cranking conductor, exempt", source=law("183.425(g)"))
    return judge_size(cable, study, CARD.source)
