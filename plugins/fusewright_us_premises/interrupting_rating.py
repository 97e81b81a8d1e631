"""A device must break the fault current that its place can deliver, at its circuit's voltage.

Other than physics, the code asks for the rating at nominal voltage.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import (
    Card,
    Judgement,
    Rule,
    capped,
    compare,
    rule,
)
from coordination.rules.kit.editions import dated
from coordination.rules.kit.interrupt_row import interrupt_rating_at
from fusewright_us_premises.editions import Y2023, Edition

CARD = Card(
    name="interrupting-rating",
    title="The device can break the available fault current",
    why="110.9: equipment meant to break fault current has an interrupting rating, at nominal "
    "circuit voltage, of at least the current available at its line terminals.",
    wrong="A breaker marked 5 kA at 48 V on a lithium bank that delivers 9 kA.",
    right="A device marked for at least the available current at this voltage or above.",
    severity="paperwork",
    basis="standard",
    source=Y2023.source("110.9"),
)


def of(edition: Edition) -> Rule:
    """The rule in this edition."""

    @rule(dated(CARD, edition.source("110.9")), each="device")
    def interrupting_rating(device: Any, study: Any) -> Judgement:
        """Largest current that can arrive at either terminal against the rating.

        The row of the lowest listed voltage that covers the nominal one; never interpolated.
        """
        nominal = study.sources_nominal(device.start)
        limit = interrupt_rating_at(device.part, nominal, "interrupting rating")
        return capped(compare(study.duty(device), at_most=limit))

    return interrupting_rating
