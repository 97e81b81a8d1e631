"""Conductors may be joined in parallel only from a certain size up."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.physics.conductors import awg_area
from coordination.rules import Card, Judgement, Rule, capped, compare, given, rule
from coordination.rules.kit.editions import dated
from coordination.rules.kit.installed import installations
from fusewright_us_premises.ampacity import ROUNDED
from fusewright_us_premises.editions import Y2023, Edition

CLAUSE = "310.10(G)"
CARD = Card(
    name="parallel-conductors",
    title="Parallel conductors are 1/0 AWG or larger",
    why="310.10(G): small conductors in parallel share the current badly, and one that breaks "
    "leaves the others overloaded behind a device for all of them.",
    wrong="Three 6 AWG cables side by side in place of one 2/0.",
    right="One larger cable, or parallel ones of 1/0 AWG and up, of equal length.",
    severity="paperwork",
    basis="standard",
    source=Y2023.source(CLAUSE),
)


def of(edition: Edition) -> Rule:
    """The rule in this edition; older ones number it 310.10(H)."""
    source = edition.source(CLAUSE if edition.year >= "2020" else "310.10(H)")

    @rule(dated(CARD, source), each="cable")
    def parallel_conductors(cable: Any, study: Any) -> Iterator[Judgement]:
        """Area of each leg that has parallel runs; written areas may be rounded."""
        least = (1 - ROUNDED) * awg_area(0)
        limit = given("area of 1/0 AWG, rounded", "S_min", least, "m²", source, "53.2 mm²")
        for leg in installations(cable, study):
            if leg.runs > 1:
                yield capped(compare(leg.area, at_least=limit))

    return parallel_conductors
