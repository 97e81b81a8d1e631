"""`fusewright explain`: the derivation behind the verdicts on one subject."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from coordination.checking import Request, known_rules, known_word, prepare, studies_of
from coordination.cli.output import columns, emit, is_terminal
from coordination.errors import BadInput, Problem

if TYPE_CHECKING:
    from coordination.model import System
    from coordination.rules.finding import Finding, Findings


def explain_subject(request: Request, subject: str, rule: str | None, width: int | None) -> int:
    """Print one tree a verdict; gives 0. Raises BadInput: no such subject or rule."""
    from coordination.report.colour import paint_for
    from coordination.report.tree import tree_report
    from coordination.rules.judge import judge

    request = request._replace(rules=(rule,) if rule else ())
    system, packs = prepare(request)
    known_word("subject", subject, names_of(system), request.file)
    known_rules(request.rules, packs, request.file)
    findings = judge(studies_of(request, system, packs), packs, only=request.rules)
    chosen = _of(findings, subject, rule)
    paint = paint_for(is_terminal(), os.environ)
    emit(tree_report(chosen, findings.file, columns(width), paint))
    return 0


def names_of(system: System) -> tuple[str, ...]:
    """Everything a rule may judge, and the system, of which packs say whether they speak."""
    groups = (system.sources, system.busbars, system.equipment, system.converters)
    named = (name for group in groups for name in group)
    return (*(element.name for element in system.elements()), *named, system.name)


def _of(findings: Findings, subject: str, rule: str | None) -> list[Finding]:
    chosen = [finding for finding in findings.findings if finding.subject == subject]
    if not chosen:
        which = f"rule {rule} does not concern" if rule else "no rule of the packs in use concerns"
        raise BadInput((Problem(findings.file, 0, 0, f"{which} {subject!r}: there is no verdict"),))
    return chosen
