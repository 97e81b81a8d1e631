"""The passes in one compact table: with both sides, or one row a rule when they are many."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from coordination.languages.language import ENGLISH
from coordination.report.block import margin_words
from coordination.report.wording import RELATIONS, clean, compared

if TYPE_CHECKING:
    from coordination.languages.language import Language
    from coordination.rules.finding import Finding

#: More passes than this are told a rule at a time.
MANY = 60

Table = tuple[list[tuple[str, ...]], tuple[str, ...], str]


def pass_table(findings: Sequence[Finding], words: Language = ENGLISH) -> Table:
    """Rows, headers and alignment of the table of passes."""
    rows, heads, align = _each(findings) if len(findings) <= MANY else _by_rule(findings)
    figures = range(2, 5) if len(heads) == len("llrrr") else (2,)
    said = [
        tuple(words.figure(text) if place in figures else text for place, text in enumerate(row))
        for row in rows
    ]
    return said, tuple(map(words.say, heads)), align


def _each(findings: Sequence[Finding]) -> Table:
    rows: list[tuple[str, ...]] = []
    for finding in sorted(findings, key=lambda finding: (finding.rule, finding.subject)):
        found, required = compared(finding.found, finding.required)
        limit = f"{RELATIONS[finding.relation]} {required}".strip()
        rows.append(
            (clean(finding.rule), clean(finding.subject), found, limit, margin_words(finding))
        )
    return rows, ("passed", "subject", "found", "required", "margin"), "llrrr"


def _by_rule(findings: Sequence[Finding]) -> Table:
    groups: dict[str, list[Finding]] = {}
    for finding in findings:
        groups.setdefault(finding.rule, []).append(finding)
    rows: list[tuple[str, ...]] = []
    for rule, group in sorted(groups.items()):
        measured = [finding for finding in group if finding.margin is not None]
        closest = min(measured, key=lambda finding: finding.margin or 0.0, default=None)
        nearest = ("", "") if closest is None else (margin_words(closest), clean(closest.subject))
        rows.append((clean(rule), str(len(group)), *nearest))
    return rows, ("passed", "times", "least margin", "at"), "lrrl"
