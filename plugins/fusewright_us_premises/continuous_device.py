"""A device must be rated for a quarter more than the load it carries for hours."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, Rule, rule
from coordination.rules.kit.editions import dated
from fusewright_us_premises.continuous import held_against
from fusewright_us_premises.editions import Y2023, Edition
from fusewright_us_premises.guard import device_rating

CLAUSE = "215.3, 690.9(B), 706.31(B)"
CARD = Card(
    name="continuous-device",
    title="Device rated at 125 % of the continuous load",
    why="A device in its enclosure is listed to carry its rating for three hours, not for ever: "
    "the rating is at least 125 % of the load that lasts three hours or longer.",
    wrong="A 100 A breaker for a charger that gives 90 A all day.",
    right="The next larger rating that the conductor still allows, or a device listed for 100 %.",
    severity="paperwork",
    basis="standard",
    source=Y2023.source(CLAUSE),
)


def of(edition: Edition) -> Rule:
    """The rule in this edition."""
    source = edition.source(CLAUSE)

    @rule(dated(CARD, source), each="device")
    def continuous_device(device: Any, study: Any) -> Judgement:
        """125 % of the design current against the rating; a listing for 100 % is not known."""
        return held_against(study.load(device), device_rating(device), study, source)

    return continuous_device
