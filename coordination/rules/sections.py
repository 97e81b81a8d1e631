"""Asks packs for what they add to a report; it changes no verdict of theirs or others'."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from coordination.rules.asking import Crash, crash_problem
from coordination.rules.calls import Calls
from coordination.rules.card import Scope
from coordination.rules.finding import Findings
from coordination.rules.pack import Pack
from coordination.rules.words import Section


def with_sections(findings: Findings, scopes: Mapping[str, Scope], calls: Calls) -> Findings:
    """The findings with the sections of every pack that judged; a crash is a problem."""
    found: list[tuple[str, Section]] = []
    problems = []
    for pack in findings.packs:
        scope = scopes.get(pack.card.name)
        if pack.sections is None or scope is None or not scope.applies:
            continue
        try:
            given = calls(_asked, pack, findings)
            found.extend((pack.card.name, _believed(section)) for section in given)
        except Exception as error:
            name = f"{pack.card.name}/report sections"
            problems.append(crash_problem(pack, name, [Crash("the report", error)]))
    if not found and not problems:
        return findings
    # An added text that is missing leaves nothing unchecked, but the pack did not do its work.
    verdict = "unproven" if problems and findings.verdict == "pass" else findings.verdict
    return replace(
        findings,
        sections=tuple(found),
        problems=(*findings.problems, *problems),
        verdict=verdict,
    )


def _asked(pack: Pack, findings: Findings) -> tuple[Any, ...]:
    assert pack.sections is not None
    groups = pack.sections(findings=findings, edition=pack.card.edition)
    if isinstance(groups, Iterable):
        return tuple(section for group in groups for section in group)
    raise TypeError("sections are no sequence")


def _believed(section: Any) -> Section:
    if not isinstance(section, Section):
        raise TypeError(f"a report section is a Section, not {section!r:.60}")
    rows = (section.paragraphs, section.headings, *section.rows)
    if not all(isinstance(row, tuple) and all(isinstance(x, str) for x in row) for row in rows):
        raise TypeError(f"section {section.title!r:.60} holds something that is no text")
    if any(len(row) != len(section.headings) for row in section.rows):
        raise TypeError(f"section {section.title!r:.60} has rows that do not fit its headings")
    return section
