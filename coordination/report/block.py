"""One finding as the pieces a reader is shown, in words; their layout is for others."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coordination.languages.language import ENGLISH
from coordination.report.missing import cure_of
from coordination.report.sentence import because
from coordination.report.substitution import working
from coordination.report.view import nearest_steps
from coordination.report.wording import RELATIONS, amount, clean, compared, place, source_words
from coordination.trace import Unknown

if TYPE_CHECKING:
    from coordination.languages.language import Language
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


def block(
    finding: Finding, file: str, limit: int = STEPS, words: Language = ENGLISH
) -> Block:
    """The pieces of one finding; `limit` steps of its derivation at most."""
    shown, more = nearest_steps(finding, limit)
    here, allowed = compared(finding.found, finding.required)
    if isinstance(finding.found, Unknown) and isinstance(finding.required, Unknown):
        here = allowed = ""
    bad = finding.verdict in ("fail", "waived")
    cure = words.say(clean(finding.card.right)) if bad else ""
    if finding.verdict == "unproven":
        cure = cure_of(finding.missing, words)
    return Block(
        verdict=finding.verdict,
        rule=clean(finding.rule),
        title=words.say(clean(finding.card.title)),
        place=place(file, finding.line),
        subject=subject_words(finding, words),
        severity=finding.severity if bad else "",
        because=because(finding, words),
        found=words.figure(here),
        required=words.figure(f"{RELATIONS[finding.relation]} {allowed}".strip()),
        margin=words.figure(margin_words(finding)),
        steps=tuple(step_row(each, words) for each in shown),
        more_steps=more,
        missing=tuple(words.lack(clean(each)) for each in finding.missing),
        source=source_words(finding.source, words),
        cure=cure,
    )


def subject_words(finding: Finding, words: Language = ENGLISH) -> str:
    """ "port feed/1 (fuse fuse-t-300, condition normal)"."""
    part = f" {clean(finding.part)}" if finding.part else ""
    return words.put(
        "{subject} ({kind}{part}, condition {condition})",
        subject=clean(finding.subject),
        kind=words.say(finding.kind),
        part=part,
        condition=clean(finding.condition),
    )


def margin_words(finding: Finding) -> str:
    """The margin as a factor: "0.59"; below 1 fails, and is never rounded up to it."""
    if finding.margin is None:
        return ""
    for digits in (3, 4, 6, 9):
        text = f"{finding.margin:.{digits}g}"
        if float(text) != 1 or finding.margin == 1:
            return text
    return text


def step_row(step: Derived, words: Language = ENGLISH) -> StepRow:
    """One number of a derivation in words."""
    name = f"{words.say(clean(step.quantity))} {clean(step.symbol)}".strip()
    value = words.figure(amount(step))
    return StepRow(name, value, working(step, words), source_words(step.source, words))
