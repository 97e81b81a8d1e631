"""Law: what a conductor carries stays within Table 5, its notes included."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, capped, compare, note
from fusewright_us_small_craft import table5
from fusewright_us_small_craft.conductor import installations
from fusewright_us_small_craft.cranking import is_cranking
from fusewright_us_small_craft.scope import law, law_rule

CARD = Card(
    name="conductor-ampacity",
    title="Law: conductor within Table 5",
    why="Above the table's current a conductor outlives neither its insulation nor the season.",
    wrong="A figure for open air used in an engine space; a bundle of 51.2 V circuits, sold as "
    '"48 V", reckoned as if it were below 50 V.',
    right="A larger conductor or a higher insulation rating.",
    severity="fire",
    source=law("183.425(b), (c), 183.435(b)"),
    basis="law",
)
_EXEMPT = law("183.425(g)")


@law_rule(CARD, each="cable")
def conductor_ampacity(cable: Any, study: Any) -> Judgement | Iterator[Judgement]:
    """Design current against Table 5 with its notes, each leg that is a cable."""
    if is_cranking(cable, study):
        return note("cranking conductor, exempt", source=_EXEMPT)
    return _legs(cable, study)


def _legs(cable: Any, study: Any) -> Iterator[Judgement]:
    load = study.load(cable)
    for leg in installations(cable, study):
        limit, unfactored = table5.ampacity(leg), table5.literal(leg)
        judgement = compare(load, at_most=limit, reason=f"{leg.leg} leg")
        beyond = compare(load, at_most=unfactored).verdict == "fail"
        yield capped(judgement) if table5.from_memory(limit) and not beyond else judgement
