"""Figures that nobody here has read prove no fail beyond paperwork."""

from __future__ import annotations

from dataclasses import replace

from coordination.rules import Judgement, Source

DECIDES = "figure from memory: the text of the standard decides"


def capped(judgement: Judgement, source: Source | None = None) -> Judgement:
    """A fail that rests on such a figure becomes one of severity paperwork that says so.

    source -- cap only where this was not read; None: always
    """
    if judgement.verdict != "fail" or (source is not None and source.read):
        return judgement
    reason = f"{judgement.reason}; {DECIDES}" if judgement.reason else DECIDES
    return replace(judgement, severity="paperwork", reason=reason)
