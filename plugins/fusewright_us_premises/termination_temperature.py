"""A conductor must stay cool enough at its terminals, whatever its insulation bears."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import Any

from coordination.rules import Card, Judgement, Rule, capped, compare, rule, unproven
from coordination.rules.kit.editions import dated
from coordination.rules.kit.installed import installations
from fusewright_us_premises.editions import Y2023, Edition
from fusewright_us_premises.guard import Bare, guards
from fusewright_us_premises.starters import starts_engine
from fusewright_us_premises.terminations import termination_limit

CARD = Card(
    name="termination-temperature",
    title="Terminals set the temperature column",
    why="110.14(C): in circuits up to 100 A terminals are made for 60 °C, above for 75 °C, unless "
    "they are listed and marked for more; the conductor may carry no more than that column of "
    "Table 310.16 allows, however hot its insulation may get.",
    wrong="A 90 °C cable loaded by its own column into a fuse block for 75 °C.",
    right="A larger conductor, or terminals listed and identified for a higher temperature.",
    severity="damage",
    basis="standard",
    source=Y2023.source("110.14(C)(1)", "2023"),
)


def of(edition: Edition) -> Rule:
    """The rule in this edition."""
    source = edition.source("110.14(C)(1)", "2023")

    @rule(dated(CARD, source), each="cable")
    def termination_temperature(cable: Any, study: Any) -> Iterator[Judgement]:
        """Largest load of the cable against its terminals' column, each leg in turn.

        The column follows from the device's rating; the table is that of raceway and cable.
        """
        found = guards(cable, study)
        if starts_engine(cable, study):
            return
        if isinstance(found, Bare):
            yield unproven(f"{cable.name}: a device, whose rating decides the column")
            return
        for each, leg in product(found, installations(cable, study)):
            limit = termination_limit(leg, cable, each.current, study, edition)
            yield capped(compare(study.load(cable), at_most=limit), source)

    return termination_temperature
