"""The machine-readable answer: findings and studies as plain dictionaries and lists.

Numbers are SI floats under keys that name the unit, unknown numbers are None. The shape is in
`answer_types`; the texts inside are the same as in the reports for people.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from coordination import __version__
from coordination.report.sentence import because
from coordination.report.substitution import with_numbers
from coordination.report.view import steps_of
from coordination.report.wording import source_words
from coordination.trace import Derived

if TYPE_CHECKING:
    from collections.abc import Callable

    from coordination.model import Element
    from coordination.report.answer_types import (
        Answer,
        ConditionEntry,
        ElementEntry,
        FindingEntry,
        Found,
        PackEntry,
        Point,
        Required,
        SectionEntry,
        Step,
    )
    from coordination.report.view import View
    from coordination.rules.card import Scope
    from coordination.rules.finding import Finding, Findings
    from coordination.rules.pack import Pack
    from coordination.rules.problem import RunProblem
    from coordination.rules.words import Section
    from coordination.trace import Value


def answer(findings: Findings, view: View) -> Answer:
    """The whole answer; the view shortens the list of findings, never counts or verdict."""
    steps: dict[int, Step] = {}
    return {
        "fusewright": __version__,
        "system": findings.system.name,
        "file": findings.file,
        "verdict": findings.verdict,
        "counts": {
            "pass": findings.counts["pass"],
            "fail": findings.counts["fail"],
            "unproven": findings.counts["unproven"],
            "note": findings.counts["note"],
            "waived": findings.counts["waived"],
        },
        "packs": [_pack(pack, findings.scopes.get(pack.card.name)) for pack in findings.packs],
        "problems": [problem_words(problem) for problem in findings.problems],
        "conditions": figures_of(findings),
        "findings": [
            _finding(finding, steps) for finding in findings.findings if view.shows(finding)
        ],
        "sections": [_section(pack, section) for pack, section in findings.sections],
        "restricted": list(view.restricted),
    }


def figures_of(findings: Findings) -> dict[str, ConditionEntry]:
    """Currents and voltages of every point and element, by condition."""
    return {name: _condition(study) for name, study in findings.studies.items()}


def problem_words(problem: RunProblem) -> str:
    """A problem of the run in one line, with what was probably meant."""
    near = f"; did you mean {problem.near_miss!r}?" if problem.near_miss else ""
    return f"{problem.what}{near}"


def _section(pack: str, section: Section) -> SectionEntry:
    return {
        "pack": pack,
        "title": section.title,
        "paragraphs": list(section.paragraphs),
        "headings": list(section.headings),
        "rows": [list(row) for row in section.rows],
    }


def _pack(pack: Pack, scope: Scope | None) -> PackEntry:
    card = pack.card
    return {
        "name": card.name,
        "version": card.version,
        "edition": card.edition,
        "rules": len(pack.rules),
        "title": card.title,
        "in_force": card.in_force,
        "jurisdiction": card.jurisdiction,
        "status": card.status,
        "applies": None if scope is None else scope.applies,
        "scope_reason": "" if scope is None else scope.reason,
    }


def _condition(study: Any) -> ConditionEntry:
    return {
        "points": {name: _point(study, name) for name in study.network.points},
        "elements": {
            element.name: _element(study, element) for element in study.subjects("element")
        },
    }


def _point(study: Any, name: str) -> Point:
    return {
        "fault_max_A": plain(study.fault_max, name),
        "fault_min_A": plain(study.fault_min, name),
        "voltage_max_V": plain(study.voltage_max, name),
        "time_constant_s": plain(study.time_constant, name),
        "load_voltage_V": plain(study.load_voltage, name),
    }


def _element(study: Any, element: Element) -> ElementEntry:
    return {
        "part": element.part.id if element.part else None,
        "kind": element.kind,
        "duty_A": plain(study.duty, element),
        "load_A": plain(study.load, element),
        "fault_min_A": plain(study.fault_min_through, element),
    }


def plain(ask: Callable[[Any], Value], subject: Any) -> float | None:
    """The number a study gives for a subject; None where it is unknown or no number at all."""
    return finite(ask(subject))


def finite(value: Value | None) -> float | None:
    """A value's number; None where it is unknown or no number at all."""
    if isinstance(value, Derived) and math.isfinite(value.value):
        return float(value.value)
    return None


def _finding(finding: Finding, made: dict[int, Step]) -> FindingEntry:
    """Findings share most of their steps; each is put into words once (`made`, by identity)."""
    steps = list(steps_of(finding))
    for step in steps:
        if id(step) not in made:
            made[id(step)] = step_entry(step)
    return {
        "rule": finding.rule,
        "subject": finding.subject,
        "condition": finding.condition,
        "verdict": finding.verdict,
        "severity": finding.severity,
        "found": _found(finding),
        "required": _required(finding),
        "margin": finding.margin,
        "missing": list(finding.missing),
        "line": finding.line,
        "source": source_words(finding.source),
        "because": because(finding),
        "steps": [made[id(step)] for step in steps],
        "basis": finding.card.basis or "practice",
    }


def _found(finding: Finding) -> Found | None:
    if finding.found is None:
        return None
    return {"value": finite(finding.found), "unit": _unit(finding.found, finding.required)}


def _required(finding: Finding) -> Required | None:
    if finding.required is None or finding.relation == "":
        return None
    unit = _unit(finding.required, finding.found)
    return {"relation": finding.relation, "value": finite(finding.required), "unit": unit}


def _unit(value: Value, other: Value | None) -> str:
    """An unknown side has the unit of the side it is compared with."""
    for side in (value, other):
        if isinstance(side, Derived):
            return side.unit
    return ""


def step_entry(step: Derived) -> Step:
    """One number of a derivation, as the answer has it."""
    return {
        "quantity": step.quantity,
        "symbol": step.symbol,
        "formula": step.formula,
        "with": with_numbers(step),
        "value": finite(step),
        "unit": step.unit,
        "source": source_words(step.source),
    }
