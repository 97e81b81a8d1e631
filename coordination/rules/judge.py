"""Asks every rule about every subject in every condition and keeps the worst answer of each.

A rule that crashes proves nothing: its subject is unproven and the run says so. Wording is the
report's.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import Any, Protocol

from coordination.model import System
from coordination.rules.card import Scope
from coordination.rules.finding import VERDICTS, Finding, Findings
from coordination.rules.inspection import SCOPE
from coordination.rules.judgement import ROUNDING, Judgement, unproven
from coordination.rules.memory import capped_by_card
from coordination.rules.pack import Pack, Packs
from coordination.rules.problem import RunProblem
from coordination.rules.rule import Rule
from coordination.rules.scope import scope_finding, scope_of
from coordination.rules.waive import waive
from coordination.rules.worst import Asked, worst
from coordination.trace import Unknown


class Studied(Protocol):
    """What `judge` itself needs of a study; rules ask it for much more."""

    @property
    def system(self) -> System: ...
    @property
    def problems(self) -> tuple[str, ...]: ...
    def subjects(self, kind: str) -> tuple[Any, ...]: ...


def judge(studies: Mapping[str, Studied], packs: Packs, *, only: Collection[str] = ()) -> Findings:
    """Every finding of the packs' rules over the studies of one system.

    studies -- condition name to its study; where two conditions are equally bad the first is named
    only    -- rules to ask, "pack/rule" or "rule"; empty: all
    Raises ValueError without a study.
    """
    if not studies:
        raise ValueError("nothing was studied")
    system = next(iter(studies.values())).system
    problems = [*packs.problems, *_network_problems(studies), *_unknown_rules(packs, only)]
    findings: list[Finding] = []
    silent: list[Finding] = []
    for pack in packs.packs:
        asked = [rule for rule in pack.rules if _wanted(pack, rule, only)]
        if not asked:
            continue
        outside = _outside(pack, studies, problems)
        if outside is not None:
            silent.append(outside)
            continue
        for rule in asked:
            findings.extend(_ask_rule(pack, rule, studies, problems))
    judged = bool(findings)
    findings, remarks = waive(findings, system.waivers, filtered=bool(only))
    ordered = sorted((*findings, *silent), key=lambda finding: (finding.subject, finding.rule))
    problems += remarks
    return _sum_up(studies, packs, tuple(problems), tuple(ordered), judged=judged)


def _wanted(pack: Pack, rule: Rule, only: Collection[str]) -> bool:
    return not only or pack.full_name(rule) in only or rule.card.name in only


def _outside(
    pack: Pack, studies: Mapping[str, Studied], problems: list[RunProblem]
) -> Finding | None:
    """What stands in place of a pack's findings if it does not speak of the system."""
    condition, study = next(iter(studies.items()))
    try:
        scope = scope_of(pack, studies)
    except Exception as error:
        name = f"{pack.card.name}/{SCOPE}"
        problems.append(_crash_problem(name, [(study.system.name, error)]))
        scope = Scope(None, "its scope test crashed", (f"{type(error).__name__}: {error}",))
    return None if scope.applies else scope_finding(pack, scope, study.system, condition)


def _sum_up(
    studies: Mapping[str, Studied],
    packs: Packs,
    problems: tuple[RunProblem, ...],
    findings: tuple[Finding, ...],
    *,
    judged: bool,
) -> Findings:
    """The answer; where no rule gave a finding (`judged`), nothing was shown."""
    counts: dict[str, int] = dict.fromkeys(VERDICTS, 0)
    for finding in findings:
        counts[finding.verdict] += 1
    incomplete = not judged or any(problem.incomplete for problem in problems)
    proven = not counts["unproven"] and not incomplete
    return Findings(
        system=next(iter(studies.values())).system,
        verdict="fail" if counts["fail"] else "pass" if proven else "unproven",
        counts=counts,
        packs=packs.packs,
        problems=problems,
        findings=findings,
        studies=studies,
    )


def _ask_rule(
    pack: Pack, rule: Rule, studies: Mapping[str, Studied], problems: list[RunProblem]
) -> Iterable[Finding]:
    asked: dict[str, list[Asked]] = {}
    subjects: dict[str, tuple[str, Any]] = {}
    crashes: list[tuple[str, Exception]] = []
    for condition, study in studies.items():
        for kind, subject in _subjects(rule, condition, study, crashes):
            answers, crash = _ask(rule, subject, study)
            if crash is not None:
                crashes.append((f"{subject.name} in condition {condition}", crash))
            if answers:
                subjects.setdefault(subject.name, (kind, subject))
                met = asked.setdefault(subject.name, [])
                met.extend([Asked(condition, answer) for answer in answers])
    if crashes:
        problems.append(_crash_problem(pack.full_name(rule), crashes))
    severity = rule.card.severity
    return [
        _finding(pack, rule, *subjects[subject], worst(answers, severity))
        for subject, answers in asked.items()
    ]


def _subjects(
    rule: Rule, condition: str, study: Studied, crashes: list[tuple[str, Exception]]
) -> Iterator[tuple[str, Any]]:
    seen: set[str] = set()
    for each in rule.each:
        try:
            found = study.subjects(each)
        except Exception as error:
            crashes.append((f"every {each} in condition {condition}", error))
            continue
        for subject in found:
            if subject.name not in seen:
                seen.add(subject.name)
                yield getattr(subject, "kind", each), subject


def _ask(rule: Rule, subject: Any, study: Studied) -> tuple[Sequence[Judgement], Exception | None]:
    """The rule's answers about a subject; a crash is one unproven answer."""
    try:
        answer = rule.judge(subject, study)
        if answer is None:
            return (), None
        if isinstance(answer, Judgement):
            return (capped_by_card(_believed(answer), rule.card),), None
        return [capped_by_card(_believed(each), rule.card) for each in answer], None
    except Exception as error:
        return (unproven(f"rule crashed: {type(error).__name__}: {error}"),), error


def _believed(answer: Judgement) -> Judgement:
    """The answer, unless it is none or a pass that its own figures do not bear out."""
    if not isinstance(answer, Judgement):
        raise TypeError(f"a rule answers with Judgements, not {answer!r:.60}")
    if answer.verdict == "pass":
        if (
            answer.missing
            or isinstance(answer.found, Unknown)
            or isinstance(answer.required, Unknown)
        ):
            raise ValueError("a pass with something unknown")
        if answer.margin is not None and answer.margin < 1 - 2 * ROUNDING:
            raise ValueError(f"a pass with margin {answer.margin}")
    elif answer.verdict not in ("fail", "unproven", "note"):
        raise ValueError(f"no verdict {answer.verdict!r}")
    return answer


def _finding(pack: Pack, rule: Rule, kind: str, subject: Any, asked: Asked) -> Finding:
    answer = asked.answer
    part = getattr(subject, "part", None)
    return Finding(
        rule=pack.full_name(rule),
        card=rule.card,
        subject=subject.name,
        kind=kind,
        line=subject.line,
        condition=asked.condition,
        verdict=answer.verdict,
        severity=answer.severity or rule.card.severity,
        source=answer.source or rule.card.source,
        found=answer.found,
        relation=answer.relation,
        required=answer.required,
        margin=answer.margin,
        missing=answer.missing,
        reason=answer.reason,
        part=None if part is None else part.id,
    )


def _crash_problem(rule: str, crashes: Sequence[tuple[str, Exception]]) -> RunProblem:
    """One problem for all crashes of a rule, with the first of them."""
    import traceback

    subject, error = crashes[0]
    more = f", and {len(crashes) - 1} times more" if len(crashes) > 1 else ""
    return RunProblem(
        kind="rule",
        about=rule,
        what=f"rule {rule} crashed on {subject}: {type(error).__name__}: {error}{more}",
        trace="".join(traceback.format_exception(error)),
    )


def _network_problems(studies: Mapping[str, Studied]) -> list[RunProblem]:
    """What each study could not take in, each once with the first condition it shows in."""
    first: dict[str, str] = {}
    for condition, study in studies.items():
        for what in study.problems:
            first.setdefault(what, condition)
    return [
        RunProblem(kind="network", what=what, about=condition) for what, condition in first.items()
    ]


def _unknown_rules(packs: Packs, only: Collection[str]) -> list[RunProblem]:
    known = packs.rule_names()
    short = {name.partition("/")[2] for name in known}
    return [
        RunProblem(kind="rule", about=name, what=f"no loaded pack has a rule {name!r}")
        for name in only
        if name not in known and name not in short
    ]
