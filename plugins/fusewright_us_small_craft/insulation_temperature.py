"""Practice: insulation of 60 °C anywhere, 75 °C in an engine space."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, compare, given, rule
from fusewright_us_small_craft.conductor import installations
from fusewright_us_small_craft.scope import E11, practice

CARD = Card(
    name="insulation-temperature",
    title="Practice: insulation for its place",
    why="Engine spaces are reckoned at 50 °C, oily and close to the exhaust. The law's own table "
    "has a factor for 60 °C wire there; under this practice it is of no use.",
    wrong="Household wire of 60 °C insulation in an engine space.",
    right="Cable of 75 °C insulation or more, 105 °C by preference.",
    severity="fire",
    source=practice(E11, "11.16.1.3.1, 11.16.1.3.4"),
    basis="practice",
)
ANYWHERE = given("least insulation rating", "T_min", 60.0, "°C", CARD.source, "60 °C")
ENGINE = given(
    "least insulation rating in an engine space", "T_min", 75.0, "°C", CARD.source, "75 °C"
)


@rule(CARD, each="cable")
def insulation_temperature(cable: Any, study: Any) -> Iterator[Judgement]:
    """Each leg's rating against the least for its place."""
    least = ENGINE if cable.place.engine_space else ANYWHERE
    for leg in installations(cable, study):
        yield compare(leg.insulation_temperature, at_least=least)
