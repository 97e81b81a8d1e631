"""A busbar must carry what flows along it, and what its protection would let flow along it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import COMMON_PRACTICE, Card, Judgement, compare, fail, rule
from coordination.rules.kit.stated import rating
from fusewright_fundamentals.busbar_bound import largest_through
from fusewright_fundamentals.busbar_branches import branches, ordered

CARD = Card(
    name="busbar-ampacity",
    title="Busbar carries its busiest section",
    why="A bar heats where most current flows along it, and its protection stands elsewhere: what "
    "comes in through several fuses adds up on the bar, and so does what leaves it. Where the file "
    "gives the order of the circuits, each section counts by itself; else all that leaves counts.",
    wrong="A block of studs rated for one feed that collects two batteries and a charger; one "
    "more branch put on a bar that was full.",
    right="A larger bar, a smaller device ahead of it, or the feed in the middle of the bar.",
    severity="fire",
    source=COMMON_PRACTICE,
)


@rule(CARD, each="busbar")
def busbar_ampacity(busbar: Any, study: Any) -> Iterator[Judgement]:
    """Busiest section, downstream total and the current protection allows against the rating.

    A starter's branch without a device draws for seconds and is left out of the last.
    """
    rated = rating(busbar.part, "rated_current", "continuous rating", "I_r", "A")
    joined = branches(busbar, study)
    in_order = ordered(busbar, joined)
    yield compare(study.section_load(busbar), at_most=rated, reason="busiest section")
    if not in_order:
        yield compare(study.outgoing(busbar), at_most=rated, reason="downstream total")
    if any(branch.gives for branch in joined):
        bound = largest_through(joined, in_order=in_order)
        if bound is None:
            yield fail("no device limits the current along the bar")
        else:
            yield compare(bound, at_most=rated, reason="what its protection lets through")
