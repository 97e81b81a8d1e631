"""What a report must say besides verdicts: what was not checked, and the usual cautions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.rules.finding import Findings

#: Nothing a drawing of a DC system can show; no pack covers these.
NEVER_CHECKED = (
    "the AC side: shore power, inverter output, earthing",
    "workmanship: crimps, torque, chafe, support and routing of cables",
    "whether what was built is what was drawn",
    "corrosion and galvanic isolation",
    "ventilation, gas, and thermal runaway of batteries",
    "mechanical strength, vibration, water",
    "settings and faults of electronics (battery management, chargers, converters)",
)

CAUTIONS = (
    "These verdicts hold for the inputs given and for nothing else: they say that these checks "
    "passed or did not, on these figures.",
    "Local codes, makers' instructions and licensed practice come first where they ask for more.",
    "Check again after every change of a part, a length or a battery.",
    "Disconnect and isolate every source before working on the system.",
    "A battery's own electronics are no fault protection and are not counted as such.",
    "Figures marked (from memory) were not read in their document: look them up first.",
)


def not_checked(findings: Findings) -> tuple[str, ...]:
    """What the packs that ran leave out, by their own cards, then what none can check."""
    named = (clean(item) for pack in findings.packs for item in pack.card.not_covered)
    return tuple(dict.fromkeys((*named, *NEVER_CHECKED)))
