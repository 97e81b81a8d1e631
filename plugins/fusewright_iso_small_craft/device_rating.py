"""A device is rated at its conductor's capacity at most: the standard knows no 150 %."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, Rule, capped, compare, note
from coordination.rules.kit.editions import dated
from fusewright_iso_small_craft.device_bound import device_bound
from fusewright_iso_small_craft.editions import Y2020, Edition
from fusewright_iso_small_craft.scope import iso_rule
from fusewright_iso_small_craft.table_a1 import capacities
from fusewright_iso_small_craft.walk import of_starter

CARD = Card(
    name="device-rating",
    title="Device within its conductor's capacity",
    why="What a device lets through for hours must not exceed what its conductor may carry. The "
    "standard has no allowance of 150 % as US rules have. Clause and table are from memory; for "
    "alternating current the same limit was read (ISO 13297:2020, 13.1.5).",
    wrong="A fuse sized by the US rule, or for the load, on a conductor that bears less.",
    right="A device rated at the conductor's capacity or below, or a larger conductor.",
    severity="paperwork",
    source=Y2020.own(y2012="clause 8", y2020="12.1 and Annex A, Table A.1"),
    basis="standard",
)


def of(edition: Edition) -> Rule:
    """The rule in this edition."""
    source = edition.own(y2012="clause 8 and Annex A, Table A.1",
                         y2020="12.1 and Annex A, Table A.1")  # fmt: skip

    @iso_rule(dated(CARD, source), each="cable")
    def device_rating(cable: Any, study: Any) -> Iterator[Judgement]:
        """What its devices let through against each leg's capacity.

        A cable that a battery reaches without a device is device-placement's business.
        """
        if of_starter(cable, study):
            yield note("feeds an engine's starter", source=source)
            return
        bound = device_bound(cable, study)
        if bound is None:
            return
        for leg, capacity in capacities(cable, study):
            yield capped(compare(bound, at_most=capacity, reason=f"{leg} leg"))

    return device_rating
