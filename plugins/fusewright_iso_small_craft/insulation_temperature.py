"""Conductors in engine spaces have insulation rated at 70 °C or more."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, Rule, capped, compare, given
from coordination.rules.kit.editions import dated
from fusewright_iso_small_craft.editions import Y2020, Edition
from fusewright_iso_small_craft.scope import iso_rule

CARD = Card(
    name="insulation-temperature",
    title="Insulation for engine spaces",
    why="In the air of an engine space insulation rated at 60 °C has nothing left for the current.",
    wrong="A household lead drawn through the engine space.",
    right="Insulation rated at 70 °C or more; mark such places `engine_space: yes`.",
    severity="paperwork",
    source=Y2020.carried("clause 7, conductors in engine spaces", read=False),
    basis="standard",
)
_CLAUSE = "clause 7, conductors in engine spaces"


def of(edition: Edition) -> Rule:
    """The rule in this edition."""
    source = edition.carried(_CLAUSE, read=False)
    least = given("lowest insulation rating", "T_min", 70.0, "°C", source, "70 °C")

    @iso_rule(dated(CARD, source), each="cable")
    def insulation_temperature(cable: Any, study: Any) -> list[Judgement] | None:
        """Each leg that is a cable of the file."""
        if not cable.place.engine_space:
            return None
        legs = [leg for leg in study.legs(cable) if leg.part is not None]
        return [
            capped(compare(leg.insulation_temperature, at_least=least, reason=f"{leg.name} leg"))
            for leg in legs
        ]

    return insulation_temperature
