"""Figures that nobody here has read prove no fail beyond paperwork."""

from __future__ import annotations

from dataclasses import replace

from coordination.rules import Judgement

DECIDES = "figure from memory: the text of the standard decides"


def capped(judgement: Judgement) -> Judgement:
    """A fail that rests on such a figure becomes one of severity paperwork that says so."""
    if judgement.verdict != "fail":
        return judgement
    reason = f"{judgement.reason}; {DECIDES}" if judgement.reason else DECIDES
    return replace(judgement, severity="paperwork", reason=reason)
