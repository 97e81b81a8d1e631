"""Practice: a device is rated at 150 % of its conductor's current at most."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, Value, capped, compare, derive, given, note, rule
from fusewright_us_small_craft import table5
from fusewright_us_small_craft.conductor import installations
from fusewright_us_small_craft.cranking import is_cranking
from fusewright_us_small_craft.device_bound import Unbounded, device_bound
from fusewright_us_small_craft.scope import E11, practice

CARD = Card(
    name="practice-device-rating",
    title="Practice: device within 150 % of its conductor",
    why="Above that a device leaves its conductor to burn. The 150 % is from memory; the law has "
    "the same figure for boats under it.",
    wrong="A fuse chosen for the load, not for the conductor.",
    right="A smaller device or a larger conductor.",
    severity="paperwork",
    source=practice(E11, "E-11.10.1.2", read=False),
    basis="practice",
)
_SHARE = given("share allowed", "p", 1.5, "", CARD.source, "150 %")


@rule(CARD, each="cable")
def practice_device_rating(cable: Any, study: Any) -> Judgement | Iterator[Judgement] | None:
    """What its devices let through; a cable without any is practice-placement's business."""
    if is_cranking(cable, study):
        return note("cranking conductor", source=CARD.source)
    bound = device_bound(cable, study)
    return None if bound is None or isinstance(bound, Unbounded) else _legs(cable, bound, study)


def _legs(cable: Any, bound: Value, study: Any) -> Iterator[Judgement]:
    for leg in installations(cable, study):
        limit = derive(
            lambda p, k, i: p * k * i, "largest device", "I_max", "A", "p × k_e × I_5",
            _SHARE, table5.place_factor(leg), table5.literal(leg),
        )  # fmt: skip
        yield capped(compare(bound, at_most=limit, reason=f"{leg.leg} leg"))
