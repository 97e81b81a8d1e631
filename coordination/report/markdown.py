"""A run's answer as markdown: the same content and order as the text, with tables for numbers."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from coordination.report.block import Block, block
from coordination.report.limits import cautions, not_checked
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
from coordination.report.tables import markdown_safe, markdown_table

if TYPE_CHECKING:
    from collections.abc import Iterable

    from coordination.report.view import View
    from coordination.rules.finding import Finding, Findings
    from coordination.rules.words import Section


def markdown_report(findings: Findings, view: View) -> str:
    """The report for documents, ending in a newline."""
    return "\n".join(_lines(findings, view)) + "\n"


def _lines(findings: Findings, view: View) -> Iterator[str]:
    yield from (f"# {markdown_safe(headline(findings))}", "", f"{conclusion(findings)}.", "")
    yield from (f"- {label}: {markdown_safe(text)}" for label, text in basis(findings, view))
    for title, group in problem_groups(findings):
        yield from _listed(title, (problem_line(one, findings.file) for one in group))
    for verdict in ORDER:
        chosen = chosen_of(findings, verdict, view)
        if chosen:
            yield from ("", f"## {HEADINGS[verdict]} ({len(chosen)})")
            yield from _section(verdict, chosen, findings.file, view)
    for pack, section in findings.sections:
        yield from _of_pack(pack, section)
    yield from _listed("Not checked", not_checked(findings))
    yield from _listed("Cautions", cautions(findings))


def _of_pack(pack: str, section: Section) -> Iterator[str]:
    """What a pack adds: its paragraphs, then its table."""
    yield from ("", f"## {markdown_safe(f'{section.title} ({pack})')}")
    for paragraph in section.paragraphs:
        yield from ("", markdown_safe(paragraph))
    if section.rows:
        aligned = "l" * len(section.headings)
        yield from ("", markdown_table(section.rows, section.headings, aligned))


def _section(verdict: str, chosen: list[Finding], file: str, view: View) -> Iterator[str]:
    if verdict == "pass" and not view.full:
        yield from ("", markdown_table(*pass_table(chosen)))
        return
    wanted = rows_to_state(chosen) if verdict == "unproven" and len(chosen) > 1 else []
    if wanted:
        yield from ("", "To prove them, state in the part or in the file:", "")
        yield markdown_table(wanted, ("of", "what is missing"), "ll")
    for finding in chosen:
        yield from _block(block(finding, file))


def _block(shown: Block) -> Iterator[str]:
    yield from (
        "",
        f"### {shown.verdict.upper()} {markdown_safe(shown.rule)}: {markdown_safe(shown.title)}",
    )
    yield from ("", f"{markdown_safe(shown.place)}, {markdown_safe(shown.subject)}")
    yield from ("", markdown_safe(shown.because))
    if shown.found and shown.required:
        rows = [(shown.found, shown.required, shown.margin)]
        yield from ("", markdown_table(rows, ("found", "required", "margin"), "llr"))
    if shown.steps:
        steps = [(step.name, step.value, step.working, step.source) for step in shown.steps]
        yield from ("", markdown_table(steps, ("step", "value", "working", "source"), "lrll"))
    if shown.more_steps:
        yield from ("", "Earlier steps: see `fusewright explain`.")
    tail = [("Source", shown.source), ("Severity", shown.severity), ("Do", shown.cure)]
    yield ""
    yield from (f"- {label}: {markdown_safe(text)}" for label, text in tail if text)


def _listed(title: str, items: Iterable[str]) -> Iterator[str]:
    yield from ("", f"## {title}", "")
    yield from (f"- {markdown_safe(item)}" for item in items)
