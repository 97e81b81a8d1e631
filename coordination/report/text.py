"""A run's answer as text for people: what needs a hand first, what passed last.

Knows the layout at a given width; the words of each finding come from `block`.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from coordination.report.block import Block, block
from coordination.report.colour import Paint, plain
from coordination.report.limits import cautions, not_checked
from coordination.report.lines import NARROWEST, labelled, step_lines, wrapped
from coordination.report.missing import rows_to_state
from coordination.report.passes import pass_table
from coordination.report.summary import (
    HEADINGS,
    ORDER,
    basis,
    chosen_of,
    conclusion,
    headline,
    problem_groups,
    problem_line,
)
from coordination.report.tables import columns
from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.report.view import View
    from coordination.rules.finding import Finding, Findings
    from coordination.rules.words import Section


def text_report(findings: Findings, view: View, paint: Paint = plain) -> str:
    """The report for people, ending in a newline."""
    return "\n".join(_lines(findings, view, paint)) + "\n"


def _lines(findings: Findings, view: View, paint: Paint) -> Iterator[str]:
    width = max(view.width, NARROWEST)
    head = wrapped(headline(findings), width, "", "  ")
    yield from (paint(findings.verdict, line) for line in head)
    yield f"  {conclusion(findings)}"
    yield from labelled(basis(findings, view), width, "  ")
    for title, group in problem_groups(findings):
        yield from _listed(title, [problem_line(one, findings.file) for one in group], width, paint)
    for verdict in ORDER:
        chosen = chosen_of(findings, verdict, view)
        if chosen:
            yield from _section(verdict, chosen, findings.file, view, width, paint)
    for pack, section in findings.sections:
        yield from _of_pack(pack, section, width, paint)
    yield from _listed("Not checked", not_checked(findings), width, paint)
    yield from _listed("Cautions", cautions(findings), width, paint)


def _listed(
    title: str, items: tuple[str, ...] | list[str], width: int, paint: Paint
) -> Iterator[str]:
    yield ""
    yield paint("heading", title)
    for item in items:
        yield from wrapped(item, width, "  - ", "    ")


def _of_pack(pack: str, section: Section, width: int, paint: Paint) -> Iterator[str]:
    """What a pack adds: its paragraphs, then its table."""
    yield ""
    yield paint("heading", clean(f"{section.title} ({pack})"))
    for paragraph in section.paragraphs:
        yield from wrapped(clean(paragraph), width, "  ")
    if section.rows:
        rows = [tuple(map(clean, row)) for row in section.rows]
        headings = tuple(map(clean, section.headings))
        yield from columns(rows, headings, "l" * len(headings), width)


def _section(
    verdict: str, chosen: list[Finding], file: str, view: View, width: int, paint: Paint
) -> Iterator[str]:
    yield ""
    yield paint("heading", f"{HEADINGS[verdict]} ({len(chosen)})")
    if verdict == "pass" and not view.full:
        yield from columns(*pass_table(chosen), width)
        return
    blocks = [block(finding, file) for finding in chosen]
    if any(shown.steps for shown in blocks):
        yield from wrapped(f"Every step: fusewright explain {clean(file)} SUBJECT RULE", width)
    if verdict == "unproven" and len(chosen) > 1:
        yield from _wanted(rows_to_state(chosen), width)
    for shown in blocks:
        yield ""
        yield from block_lines(shown, width, paint)


def _wanted(rows: list[tuple[str, str]], width: int) -> Iterator[str]:
    """Everything that the unproven findings ask for, once."""
    if rows:
        yield ""
        yield from wrapped("To prove them, state in the part or in the file:", width)
        yield from labelled(rows, width, "  ")


def block_lines(shown: Block, width: int, paint: Paint = plain) -> Iterator[str]:
    """One finding: what was checked, where, the sentence, the numbers, the source, what to do."""
    yield from block_head(shown, width, paint)
    yield from wrapped(shown.because, width, "  ")
    if shown.found and shown.required:
        margin = f", margin {shown.margin}" if shown.margin else ""
        yield from wrapped(f"found {shown.found}, required {shown.required}{margin}", width, "  ")
    yield from step_lines(shown.steps, width, "    ")
    if shown.more_steps:
        yield "    (after earlier steps)"
    yield from labelled([("source", shown.source), ("severity", shown.severity)], width, "  ")
    if shown.cure:
        yield from wrapped(f"Do: {shown.cure}", width, "  ", "      ")


def block_head(shown: Block, width: int, paint: Paint) -> Iterator[str]:
    """Verdict, rule, title, place and subject: on one line if they fit."""
    word = shown.verdict.upper()
    whole = f"{word} {shown.rule}  {shown.title}  {shown.place}  {shown.subject}"
    if len(whole) <= width:
        lines = [whole]
    else:
        lines = wrapped(f"{word} {shown.rule}  {shown.title}", width, "", "  ")
        if 2 * len(shown.place) < width + 16:
            lines += labelled([(shown.place, shown.subject)], width, "  ")
        else:
            lines += wrapped(shown.place, width, "  ") + wrapped(shown.subject, width, "  ", "    ")
    yield paint(shown.verdict, word) + lines[0][len(word) :]
    yield from lines[1:]
