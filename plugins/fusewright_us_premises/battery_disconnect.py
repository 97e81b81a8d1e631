"""A stationary battery above the threshold needs a disconnect in what it feeds."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, Rule, capped, rule
from coordination.rules.kit.editions import dated
from fusewright_us_premises.disconnecting import disconnected, not_required
from fusewright_us_premises.editions import Y2023, Edition

CARD = Card(
    name="battery-disconnect",
    title="A disconnect for the stationary battery",
    why="Article 480: conductors derived from a stationary battery above 60 V (50 V in the 2014 "
    "edition) have a disconnect, readily accessible and within sight of the battery. The voltage "
    "is the nominal one by the cells: a bank sold as 48 V may be one of 51.2 V.",
    wrong="A bank wired through fuses alone, which nobody can open under load.",
    right="A switch or breaker before all the battery feeds; sight and access are not judged.",
    severity="paperwork",
    basis="standard",
    source=Y2023.source(Y2023.battery_disconnect),
)


def of(edition: Edition) -> Rule:
    """The rule in this edition, with its threshold."""
    source = edition.source(edition.battery_disconnect)

    @rule(dated(CARD, source), each="source")
    def battery_disconnect(battery: Any, study: Any) -> Judgement | None:
        """Every load must lie behind a switch or a breaker; a fuse is no disconnect."""
        if battery.part is None or battery.name in study.condition.without:
            return None
        nominal = study.sources_nominal(battery.name)
        small = not_required(nominal, edition.battery_volts, source)
        return small or capped(disconnected(battery, study))

    return battery_disconnect
