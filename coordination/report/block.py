"""One finding as the pieces a reader is shown, in words; their layout is for others."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coordination.report.missing import cure_of
from coordination.report.sentence import because
from coordination.report.substitution import working
from coordination.report.view import nearest_steps
from coordination.report.wording import RELATIONS, amount, clean, compared, place, source_words
from coordination.trace import Unknown

if TYPE_CHECKING:
    from coordination.rules.finding import Finding
    from coordination.trace import Derived

#: Steps shown with a finding; the whole derivation is for `explain`.
STEPS = 8


class StepRow(NamedTuple):
    """One number: what it is, its value, the formula with numbers, where it comes from."""

    name: str
    value: str
    working: str
    source: str


class Block(NamedTuple):
    """A finding in words; whatever does not apply is empty."""

    verdict: str
    rule: str
    title: str
    place: str
    subject: str
    severity: str
    because: str
    found: str
    required: str
    margin: str
    steps: tuple[StepRow, ...]
    more_steps: bool
    missing: tuple[str, ...]
    source: str
    cure: str


def block(finding: Finding, file: str, limit: int = STEPS) -> Block:
    """The pieces of one finding; `limit` steps of its derivation at most."""
    shown, more = nearest_steps(finding, limit)
    here, allowed = compared(finding.found, finding.required)
    if isinstance(finding.found, Unknown) and isinstance(finding.required, Unknown):
        here = allowed = ""
    bad = finding.verdict in ("fail", "waived")
    cure = finding.card.right if bad else ""
    if finding.verdict == "unproven":
        cure = cure_of(finding.missing)
    return Block(
        verdict=finding.verdict,
        rule=clean(finding.rule),
        title=clean(finding.card.title),
        place=place(file, finding.line),
        subject=subject_words(finding),
        severity=finding.severity if bad else "",
        because=because(finding),
        found=here,
        required=f"{RELATIONS[finding.relation]} {allowed}".strip(),
        margin=margin_words(finding),
        steps=tuple(map(step_row, shown)),
        more_steps=more,
        missing=tuple(map(clean, finding.missing)),
        source=source_words(finding.source),
        cure=clean(cure),
    )


def subject_words(finding: Finding) -> str:
    """ "port feed/1 (fuse fuse-t-300, condition normal)"."""
    part = f" {finding.part}" if finding.part else ""
    return clean(f"{finding.subject} ({finding.kind}{part}, condition {finding.condition})")


def margin_words(finding: Finding) -> str:
    """The margin as a factor: "0.59"; below 1 fails, and is never rounded up to it."""
    if finding.margin is None:
        return ""
    for digits in (3, 4, 6, 9):
        text = f"{finding.margin:.{digits}g}"
        if float(text) != 1 or finding.margin == 1:
            return text
    return text


def step_row(step: Derived) -> StepRow:
    """One number of a derivation in words."""
    name = clean(f"{step.quantity} {step.symbol}".strip())
    return StepRow(name, amount(step), working(step), source_words(step.source))
