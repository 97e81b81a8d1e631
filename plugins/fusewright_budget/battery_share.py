"""What one battery of several gives must be within its own limit and that of its own lead."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import COMMON_PRACTICE, Card, Judgement, compare, note, rule
from coordination.rules.kit.stated import rating
from fusewright_budget.in_bank import own_elements, share_of

CARD = Card(
    name="battery-share",
    title="Battery, lead and fuse carry the battery's share",
    why="Batteries share by their resistances and leads, not by their number: the one on the "
    "shortest lead may give half as much again as the average, more than its fuse carries.",
    wrong="A third battery, years later, on the old fuses; shares taken as the total over three.",
    right="Equal leads to one bar, a larger lead and fuse, or less load.",
    severity="damage",
    source=COMMON_PRACTICE,
)


@rule(CARD, each="source")
def battery_share(source: Any, study: Any) -> Iterator[Judgement]:
    """The share of the full load, with the stiffest batteries and with the softest.

    Against the battery's continuous discharge, and the ratings of what carries its current alone.
    """
    share = share_of(source, study)
    if share is None:
        return
    current = share.current
    yield compare(current, at_most=rating(
        source.part, "discharge.continuous", "continuous discharge current", "I_dis", "A"
    ))  # fmt: skip
    own = own_elements(source, study)
    if not own:
        yield note(
            "more than one way begins at its terminals: no lead carries the share alone, and "
            "what each carries is for the rules about loads",
            source=COMMON_PRACTICE,
        )
    for element in own:
        if element.kind in ("fuse", "breaker", "disconnect", "channel"):
            limit = rating(element.part, "rated_current", f"rating of {element.name}", "I_n", "A")
            yield compare(current, at_most=limit, reason=f"through {element.name}")
        elif element.kind == "cable":
            for leg in study.legs(element):
                limit = study.ampacity(element, leg)
                reason = f"through {element.name}, {leg.name}"
                yield compare(current, at_most=limit, reason=reason, severity="fire")
