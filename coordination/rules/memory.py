"""Figures that nobody here has read prove no fail beyond paperwork."""

from __future__ import annotations

from dataclasses import replace

from coordination.rules.card import Card
from coordination.rules.judgement import Judgement
from coordination.trace import COMMON_PRACTICE, Source, Unknown, Value

DECIDES = "figure from memory: the text of the standard decides"


def capped(judgement: Judgement, source: Source | None = None) -> Judgement:
    """A fail that rests on such a figure becomes one of severity paperwork that says so.

    source -- cap only where this was not read; None: always
    """
    if judgement.verdict != "fail" or (source is not None and source.read):
        return judgement
    if DECIDES in judgement.reason:
        return replace(judgement, severity="paperwork")
    reason = f"{judgement.reason}; {DECIDES}" if judgement.reason else DECIDES
    return replace(judgement, severity="paperwork", reason=reason)


def capped_by_card(judgement: Judgement, card: Card) -> Judgement:
    """The same by what the rule rests on: its clause, and the figures of what it requires.

    Physics is exempt: what it demands does not depend on the wording of a clause; and so is
    common practice, which has no text to decide.
    """
    if judgement.verdict != "fail" or card.basis == "physics":
        return judgement
    clause = judgement.source or card.source
    if clause == COMMON_PRACTICE or (clause.read and not _has_unread(judgement.required)):
        return judgement
    return capped(judgement)


def _has_unread(value: Value | None) -> bool:
    """Whether a given figure in the derivation comes from a text that was not read."""
    if value is None or isinstance(value, Unknown):
        return False
    return any(
        step.source is not None and not step.source.read and not step.formula
        for step in value.steps()
    )
