"""Takes each statement out of a system in turn: unstated is never better than stated."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.errors import BadInput
from coordination.rules.finding import Finding
from coordination.testing.case import CaseError
from coordination.testing.change import changed, dump_text, leaves
from coordination.testing.run import findings_of

Findings = dict[tuple[str, str], Finding]


def judged(tree: Any) -> Findings:
    """The findings for a system's tree, by rule and subject.

    Raises CaseError if a rule or a pack went wrong, BadInput if the tree is no usable system.
    """
    answer = findings_of(dump_text(tree))
    if wrong := [each.what for each in answer.problems if each.kind in ("pack", "rule")]:
        raise CaseError("; ".join(wrong))
    return {(finding.rule, finding.subject): finding for finding in answer.findings}


def statements(tree: Any) -> Iterator[tuple[str, ...]]:
    """Paths of all fields of parts, elements and options; the things themselves stay."""
    for steps in leaves(tree):
        element = steps[0] == "circuits" and len(steps) > 4 and steps[4] != "name"
        if element or (steps[0] in ("parts", "options") and len(steps) > 2):
            yield steps


def improvements(tree: Any) -> Iterator[str | None]:
    """For each statement that can be taken out: what is judged better without it, or None.

    A fail may become unproven; nothing may become a pass, or pass with more to spare.
    """
    before = judged(tree)
    for steps in statements(tree):
        try:
            after = judged(changed(tree, {}, (steps,)))
        except BadInput:
            continue
        better = [
            f"without {'.'.join(steps)}, {rule} judges {subject} better"
            for (rule, subject), finding in after.items()
            if (rule, subject) in before and _better(before[rule, subject], finding)
        ]
        yield from better if better else (None,)


def _better(before: Finding, after: Finding) -> bool:
    if after.verdict != "pass" or before.verdict != "pass":
        return after.verdict in ("pass", "note") and after.verdict != before.verdict
    if before.margin is None or after.margin is None:
        return before.margin is not None
    return after.margin > before.margin * (1 + 1e-9) and after.relation == before.relation
