"""Holds a case's expected findings against those the engine makes."""

from __future__ import annotations

from collections.abc import Iterator

from coordination.errors import BadInput
from coordination.rules.finding import Finding, Findings
from coordination.testing.case import Case, CaseError, Expected
from coordination.testing.change import changed, dump_text, load_text
from coordination.testing.figures import differs, in_words
from coordination.testing.run import findings_of


def check_case(case: Case) -> None:
    """Raises AssertionError, naming every difference, unless the case's findings are as expected.

    Raises CaseError if the case itself is wrong: its path, its figures, its system.
    """
    differences = list(mismatches(case))
    assert not differences, f"{case.file.name}, {case.name}:\n  " + "\n  ".join(differences)


def mismatches(case: Case) -> Iterator[str]:
    """Every way in which the findings of the case's rule differ from the expected ones."""
    answer = _run(case)
    pack = case.rule.partition("/")[0]
    for problem in answer.problems:
        if problem.kind == "rule" or (problem.kind == "pack" and problem.about == pack):
            yield problem.what
    found = {finding.subject: finding for finding in answer.findings}
    for expected in case.expected:
        finding = found.pop(expected.subject, None)
        if finding is None:
            yield f"{expected.subject}: no finding, expected {expected.verdict}"
        else:
            yield from _differences(expected, finding)
            yield from _off_edge(case, finding)
    for finding in found.values():
        if finding.verdict not in case.others:
            yield f"{finding.subject}: not expected: {in_words(finding)}"


def _run(case: Case) -> Findings:
    try:
        tree = changed(load_text(case.system.read_text("utf-8")), case.changes, case.removals)
        pack = case.rule.partition("/")[0]
        return findings_of(dump_text(tree), packs=(pack,), only=(case.rule,))
    except BadInput as error:
        problems = "; ".join(f"line {each.line}: {each.what}" for each in error.problems)
        raise CaseError(f"{case.file}, {case.name}: {problems}") from error


def _differences(expected: Expected, finding: Finding) -> Iterator[str]:
    subject = finding.subject
    if finding.verdict != expected.verdict:
        yield f"{subject}: expected {expected.verdict}, not {in_words(finding)}"
    for field in ("condition", "severity"):
        wanted, got = getattr(expected, field), getattr(finding, field)
        if wanted is not None and got != wanted:
            yield f"{subject}: {field} {got!r}, expected {wanted!r}"
    for field in ("found", "required", "margin"):
        wanted = getattr(expected, field)
        if wanted is not None and (text := differs(getattr(finding, field), wanted)):
            yield f"{subject}: {field} {text}"
    if expected.missing is not None and set(finding.missing) != set(expected.missing):
        yield f"{subject}: missing {finding.missing}, expected {expected.missing}"
    if expected.reason is not None and expected.reason not in finding.reason:
        yield f"{subject}: reason {finding.reason!r}, expected {expected.reason!r}"


#: How near to its limit a case "at the edge" must be, where there is a margin.
NEAR = 0.05


def _off_edge(case: Case, finding: Finding) -> Iterator[str]:
    """A case marked as just inside or outside whose margin is neither."""
    if case.edge is None or finding.margin is None:
        return
    low, high = (1.0, 1 + NEAR) if case.edge == "inside" else (1 - NEAR, 1.0)
    if not low - 1e-9 <= finding.margin <= high:
        yield f"{finding.subject}: margin {finding.margin:.3f} is not just {case.edge}"
