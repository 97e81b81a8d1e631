"""Practice: the same smallest conductors as the law's, for every boat."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, rule
from fusewright_us_small_craft.scope import E11, practice
from fusewright_us_small_craft.size_limits import judge_size

CARD = Card(
    name="practice-conductor-size",
    title="Practice: smallest conductor",
    why="A thin conductor breaks by vibration and chafe, however little it carries.",
    wrong="A 20 AWG sense lead run alone through a bilge.",
    right="16 AWG alone; 18 AWG in a sheath with others, out of it for 30 in at most.",
    severity="damage",
    source=practice(E11, "11.16.1.1.2"),
    basis="practice",
)


@rule(CARD, each="cable")
def practice_conductor_size(cable: Any, study: Any) -> Iterator[Judgement]:
    """Each leg's area against that of the smallest size."""
    return judge_size(cable, study, CARD.source)
