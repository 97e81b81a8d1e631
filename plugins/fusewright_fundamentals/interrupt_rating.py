"""A device must be able to break the largest fault current that can flow through it.

The rating is taken at the lowest listed voltage that covers the system's highest voltage; it is
never interpolated. Which current that is, is the study's business.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import (
    COMMON_PRACTICE,
    Card,
    Derived,
    Judgement,
    Source,
    compare,
    note,
    rule,
)
from coordination.rules.kit.interrupt_row import covers, interrupt_rating_at, listed

CARD = Card(
    name="interrupt-rating",
    title="The device can break the fault current",
    why="Above its interrupt rating a device does not put the arc out: it bursts or burns on.",
    wrong="A rating of 10 kA at 14 V relied on at 28 V, or a branch fuse of 1 kA on the main bus.",
    right="A device whose rating at this voltage or above is at least its duty, at the same place.",
    severity="fire",
    source=Source("NFPA 70:2023", clause="110.9", read=False),
)


@rule(CARD, each=("device", "channel"))
def interrupt_rating(device: Any, study: Any) -> Judgement:
    """Electronics that may fail closed are no interrupter and are only noted."""
    if device.kind == "channel" and device.part.fails_shorted is not False:
        return note(
            "its electronics are not counted as a fault interrupter", source=COMMON_PRACTICE
        )
    voltage = study.voltage_max(device)
    if isinstance(voltage, Derived) and (beyond := _beyond_every_rating(device.part, voltage)):
        return beyond
    limit = interrupt_rating_at(device.part, voltage, source=COMMON_PRACTICE)
    return compare(study.duty(device), at_most=limit)


def _beyond_every_rating(part: Any, voltage: Derived) -> Judgement | None:
    """The fail of a part that has interrupt ratings, but none at this voltage."""
    if not part.interrupt_ratings or any(covers(row, voltage) for row in part.interrupt_ratings):
        return None
    place, _row = max(enumerate(part.interrupt_ratings), key=lambda each: each[1].voltage)
    highest = listed(part, place, "voltage", "highest voltage of its interrupt ratings")
    return compare(voltage, at_most=highest, reason="no interrupt rating at this voltage or above")
