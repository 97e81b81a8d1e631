"""Which of several answers about one subject stands for all of them.

A fail anywhere wins, the gravest first; then unproven, with everything that is missing in any
condition; then a note, so that an exemption in one condition is not hidden by a pass in another;
then the pass with the smallest margin.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import inf
from typing import NamedTuple

from coordination.rules.card import Severity
from coordination.rules.judgement import Judgement

_RANK = {"fail": 0, "unproven": 1, "note": 2, "pass": 3}
_GRAVITY = {"fire": 0, "damage": 1, "outage": 2, "paperwork": 3}


class Asked(NamedTuple):
    """One answer with the condition it was given for."""

    condition: str
    answer: Judgement


def worst(answers: Sequence[Asked], severity: Severity) -> Asked:
    """The answer that counts; of equals the first. `answers` holds at least one.

    severity -- of a fail that states none of its own
    """
    if len(answers) == 1:
        return answers[0]
    if all(asked.answer.verdict == "pass" for asked in answers):
        return min(answers, key=_to_lose)
    chosen = min(answers, key=lambda asked: _badness(asked.answer, severity))
    if chosen.answer.verdict != "unproven":
        return chosen
    open_ones = (asked.answer for asked in answers if asked.answer.verdict == "unproven")
    missing = dict.fromkeys(phrase for answer in open_ones for phrase in answer.missing)
    return Asked(chosen.condition, replace(chosen.answer, missing=tuple(missing)))


def _to_lose(asked: Asked) -> float:
    """The margin of a pass; one on a fact has none to lose."""
    margin = asked.answer.margin
    return inf if margin is None else margin


def _badness(answer: Judgement, severity: Severity) -> tuple[int, int, float]:
    rank = _RANK[answer.verdict]
    gravity = _GRAVITY[answer.severity or severity] if answer.verdict == "fail" else 0
    # A fail on a fact has no margin and is as bad as can be.
    no_margin = -inf if answer.verdict == "fail" else inf
    return rank, gravity, no_margin if answer.margin is None else answer.margin
