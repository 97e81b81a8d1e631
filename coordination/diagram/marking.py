"""How findings show on the diagram: one mark at whatever they are about, told apart by shape.

A fail is a filled diamond, what is unproven a hollow triangle, a waived fail a ring.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from coordination.diagram.ink import FAIL, UNPROVEN, WAIVED, Disc, Mark, Stroke, Words
from coordination.languages.language import ENGLISH, Language, plain
from coordination.report.wording import clean
from coordination.rules.finding import Finding

#: Half the height of a mark [px].
REACH = 8.0
_GRAVEST = (FAIL, UNPROVEN, WAIVED)


class Verdict(NamedTuple):
    """The gravest verdict on a subject and, for people, what each such finding is about."""

    name: str
    words: str


def verdicts(
    findings: Iterable[Finding], words: Language = ENGLISH
) -> Mapping[str, Verdict]:
    """Subject to the verdict that is marked; subjects with passes and notes only are not there."""
    told: dict[str, list[Finding]] = {}
    for finding in findings:
        if finding.verdict in _GRAVEST:
            told.setdefault(finding.subject, []).append(finding)
    return {subject: _verdict(found, words) for subject, found in told.items()}


def _verdict(found: list[Finding], words: Language) -> Verdict:
    ordered = sorted(found, key=lambda each: _GRAVEST.index(each.verdict))
    told = "; ".join(f"{words.say(each.verdict)} {clean(each.rule)}" for each in ordered)
    return Verdict(ordered[0].verdict, plain(told))


def verdict_marks(name: str, x: float, y: float) -> tuple[Mark, ...]:
    """The mark of a verdict about a place. Raises KeyError for a verdict that has none."""
    return {FAIL: _diamond, UNPROVEN: _triangle, WAIVED: _ring}[name](x, y)


def _diamond(x: float, y: float) -> tuple[Mark, ...]:
    corners = ((x, y - REACH), (x + REACH, y), (x, y + REACH), (x - REACH, y))
    return (
        Stroke(corners, FAIL, closed=True, filled=True),
        Words(x, y + 3.7, "!", 10.5, bold=True, anchor="middle", style="on fail"),
    )


def _triangle(x: float, y: float) -> tuple[Mark, ...]:
    corners = ((x, y - REACH), (x + REACH, y + REACH - 1), (x - REACH, y + REACH - 1))
    return (
        Stroke(corners, UNPROVEN, closed=True),
        Words(x, y + 5.2, "?", 9.0, bold=True, anchor="middle", style=UNPROVEN),
    )


def _ring(x: float, y: float) -> tuple[Mark, ...]:
    return (
        Disc(x, y, REACH - 1, WAIVED),
        Words(x, y + 3.2, "w", 9.0, bold=True, anchor="middle", style=WAIVED),
    )
