"""The commissioning record: what is tested, what the study expects, and boxes for what is found."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date
from typing import TYPE_CHECKING

from coordination.schedules.facts import Facts
from coordination.schedules.kinds import Schedule
from coordination.schedules.sheet import FILE, FINDINGS, STUDY, Field, box, sheet
from coordination.schedules.trial import Trial
from coordination.schedules.trials_at_rest import at_rest
from coordination.schedules.trials_of_supplies import of_supplies
from coordination.schedules.trials_under_load import under_load

if TYPE_CHECKING:
    from coordination.rules.finding import Findings

TITLE = "Commissioning record"

#: In the order of the day: nothing is loaded before polarity and tightness are right.
_GROUPS: tuple[Callable[[Facts], Iterator[Trial]], ...] = (at_rest, under_load, of_supplies)


def commissioning(findings: Findings, made: date) -> Schedule:
    """One row a test, with boxes for instrument, reading, and whoever made it."""
    facts = Facts(findings, made)
    trials = (trial for group in _GROUPS for trial in group(facts))
    return sheet("commissioning", TITLE, _FIELDS, ((each.subject, each) for each in trials))


_FIELDS = (
    Field("test", "what is tested", FILE, lambda r: r.test),
    Field("subject", "on what", FILE, lambda r: r.shown),
    Field("method", "how", FILE, lambda r: r.method),
    Field("expected", "by the study, for the figures of the file", STUDY, lambda r: r.expected),
    Field("limit", "what it must not pass", FINDINGS, lambda r: r.limit),
    box("instrument, serial", "measured with"),
    box("measured", "reading"),
    box("temperature, charge", "of the air and of the batteries at the test"),
    box("pass", "yes or no"),
    box("initials", "who, and when"),
)
