"""Every part must be rated for the highest DC voltage it can see; an AC rating is no rating."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, Source, compare, rule
from coordination.rules.kit.stated import rating

CARD = Card(
    name="dc-voltage-rating",
    title="Rated for the highest DC voltage",
    why="A DC arc has no zero crossing: above its voltage a device does not put it out at all.",
    wrong="32 V blade fuses in the sub-feeds of a 48 V cabin, or a breaker rated for AC only.",
    right="A part whose stated DC voltage is at least the highest charging voltage at its place.",
    severity="fire",
    source=Source("33 CFR 183.455 as of 2025", clause="(d), here for the highest voltage"),
)

_KINDS = ("device", "disconnect", "channel", "cable", "busbar")


@rule(CARD, each=_KINDS)
def dc_voltage_rating(subject: Any, study: Any) -> list[Judgement]:
    """The part itself and, for a cable, the other cable that its current comes back through."""
    highest = study.voltage_max(subject if hasattr(subject, "kind") else subject.name)
    back = getattr(getattr(subject, "return_path", None), "part", None)
    return [
        compare(highest, at_most=_rated(part)) for part in (subject.part, back) if part is not None
    ]


def _rated(part: Any) -> Any:
    field = "rated_voltage" if part.kind in ("fuse", "breaker") else "voltage"
    return rating(part, field, "rated DC voltage", "U_r", "V")
