"""What the pack asks of a system file beside the drawing."""

from __future__ import annotations

from coordination.rules import Option
from coordination.rules.kit.options import Questions

PACK = "continuity"
OPTIONS = (
    Option(
        name="battery_failure_counts",
        shape="flag",
        meaning="whether the failure of a battery itself counts as an event, not only its trip",
        default=False,
    ),
    Option(
        name="warning_before_trip",
        shape="flag",
        meaning="whether batteries warn, audibly or visibly, before their electronics disconnect",
    ),
)
QUESTIONS = Questions(PACK, OPTIONS)
