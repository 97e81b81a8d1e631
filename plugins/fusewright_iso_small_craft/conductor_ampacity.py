"""A conductor's design current within what Table A.1 lets it carry as installed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, Rule, capped, compare
from coordination.rules.kit.editions import dated
from fusewright_iso_small_craft.editions import Y2020, Edition
from fusewright_iso_small_craft.scope import iso_rule
from fusewright_iso_small_craft.table_a1 import capacities
from fusewright_iso_small_craft.walk import of_starter

CARD = Card(
    name="conductor-ampacity",
    title="Conductor carries its load by Table A.1",
    why="The table says what a size may carry by its insulation; an engine space and a bundle "
    "take their share. Every figure of it is from memory: a fail here is a reason to look it up.",
    wrong="A size chosen by voltage drop alone, in an engine space.",
    right="A larger size, a hotter insulation rating, or a cooler and looser run.",
    severity="paperwork",
    source=Y2020.carried("7.6 and Annex A, Table A.1", read=False),
    basis="standard",
)


def of(edition: Edition) -> Rule:
    """The rule in this edition."""

    @iso_rule(dated(CARD, edition.carried("7.6 and Annex A, Table A.1", read=False)), each="cable")
    def conductor_ampacity(cable: Any, study: Any) -> Iterator[Judgement]:
        """Each leg in turn; a starter's own cables carry their current for seconds only."""
        if of_starter(cable, study):
            return
        for leg, capacity in capacities(cable, study):
            reason = f"{leg} leg"
            yield capped(compare(study.load(cable), at_most=capacity, reason=reason))

    return conductor_ampacity
