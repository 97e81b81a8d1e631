"""A conductor must bear, before any correction, a quarter more than its continuous load."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import Any

from coordination.rules import Card, Judgement, Rule, rule
from coordination.rules.kit.editions import dated
from coordination.rules.kit.installed import installations
from fusewright_us_premises.continuous import held_against
from fusewright_us_premises.editions import Y2023, Edition
from fusewright_us_premises.guard import Bare, guards
from fusewright_us_premises.starters import starts_engine
from fusewright_us_premises.terminations import termination_limit

CLAUSE = "215.2(A)(1), 690.8(B)(1), 706.30(B)"
CARD = Card(
    name="continuous-conductor",
    title="Conductor bears 125 % of the continuous load",
    why="The conductor draws heat out of its device: its ampacity before any factor, "
    "by its terminals' column, is at least 125 % of the load that lasts three hours.",
    wrong="4 AWG by its 90 °C column for a charger that gives 95 A all day.",
    right="The next larger conductor.",
    severity="paperwork",
    basis="standard",
    source=Y2023.source(CLAUSE),
)


def of(edition: Edition) -> Rule:
    """The rule in this edition."""
    source = edition.source(CLAUSE)

    @rule(dated(CARD, source), each="cable")
    def continuous_conductor(cable: Any, study: Any) -> Iterator[Judgement]:
        """125 % of the design current against the terminals' column, each leg in turn.

        An engine's starter draws for seconds and is left out. A cable without a device is told of
        by conductor-protection.
        """
        found = guards(cable, study)
        if isinstance(found, Bare) or starts_engine(cable, study):
            return
        for each, leg in product(found, installations(cable, study)):
            rated = termination_limit(leg, cable, each.current, study, edition)
            yield held_against(study.load(cable), rated, study, source)

    return continuous_conductor
