"""Practice: a device in a charging source's output, as the law has it; figure from memory."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, capped, rule
from fusewright_us_small_craft.charging_limit import judge_charging
from fusewright_us_small_craft.scope import E11, practice

CARD = Card(
    name="practice-charging-device",
    title="Practice: device in a charging source's output",
    why="A source that does not limit its own current burns behind a larger device.",
    wrong="A 150 A fuse in the output of an 80 A alternator without a regulator that limits it.",
    right="A device up to 120 % of the largest output; or state that it is self-limiting.",
    severity="paperwork",
    source=practice(E11, "E-11.10.1, charging sources", read=False),
    basis="practice",
)


@rule(CARD, each=("source", "converter"))
def practice_charging_device(source: Any, study: Any) -> Judgement | Iterator[Judgement] | None:
    """The law's comparison, at paperwork's severity."""
    if getattr(source, "part", None) is not None:
        return None
    answer = judge_charging(source, study, CARD.source)
    if answer is None or isinstance(answer, Judgement):
        return answer if answer is None else capped(answer)
    return (capped(each) for each in answer)
