"""Asks one rule about every subject in every condition; a failed call costs its own answer only."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, NamedTuple, Protocol

from coordination.model import System
from coordination.rules.belief import Belief, answers
from coordination.rules.calls import Calls, MisdeedError, TimeLimit
from coordination.rules.finding import Finding
from coordination.rules.judgement import Judgement, unproven
from coordination.rules.memory import capped_by_card
from coordination.rules.pack import Pack
from coordination.rules.problem import RunProblem
from coordination.rules.rule import Rule
from coordination.rules.worst import Asked, worst


class Studied(Protocol):
    """What `judge` itself needs of a study; rules ask it for much more."""

    @property
    def system(self) -> System: ...
    @property
    def problems(self) -> tuple[str, ...]: ...
    def subjects(self, kind: str) -> tuple[Any, ...]: ...


class Crash(NamedTuple):
    """What a rule did where it should have answered."""

    subject: str
    error: Exception


class Asker:
    """Asks rules, each call under guard.

    crashes -- of the rule asked last
    """

    def __init__(self, calls: Calls) -> None:
        self._calls = calls
        self._belief = Belief()
        self.crashes: list[Crash] = []
        self._too_slow = False

    def findings(self, pack: Pack, rule: Rule, studies: Mapping[str, Studied]) -> Iterator[Finding]:
        """One finding for each subject that the rule concerns: its worst condition."""
        self.crashes, self._too_slow = [], False
        asked: dict[str, list[Asked]] = {}
        subjects: dict[str, tuple[str, Any]] = {}
        for condition, study in studies.items():
            for kind, subject in self._subjects(rule, condition, study):
                for answer in self._ask(rule, subject, study, condition):
                    if subject.name in asked:
                        asked[subject.name].append(Asked(condition, answer))
                    else:
                        asked[subject.name] = [Asked(condition, answer)]
                        subjects[subject.name] = kind, subject
        severity = rule.card.severity
        for name, each in asked.items():
            yield _finding(pack, rule, *subjects[name], worst(each, severity))

    def _subjects(self, rule: Rule, condition: str, study: Studied) -> Iterator[tuple[str, Any]]:
        seen: set[str] = set()
        for each in rule.each:
            try:
                found = study.subjects(each)
            except Exception as error:
                self.crashes.append(Crash(f"every {each} in condition {condition}", error))
                continue
            for subject in found:
                if subject.name not in seen:
                    seen.add(subject.name)
                    yield getattr(subject, "kind", each), subject

    def _ask(self, rule: Rule, subject: Any, study: Studied, condition: str) -> Sequence[Judgement]:
        """The rule's answers about a subject; a misdeed is one unproven answer."""
        if self._too_slow:
            return (unproven("rule crashed: not asked again after it took too long"),)
        try:
            given = self._calls(_answers, rule, subject, study)
            return [capped_by_card(self._belief.believed(answer), rule.card) for answer in given]
        except Exception as error:
            crash = error if isinstance(error, MisdeedError) else MisdeedError(_words(error))
            if crash is not error:
                crash.__cause__ = error
            self._too_slow = isinstance(crash.__cause__, TimeLimit)
            self.crashes.append(Crash(f"{subject.name} in condition {condition}", crash))
            return (unproven(f"rule crashed: {crash}"),)


def _answers(rule: Rule, subject: Any, study: Studied) -> tuple[Judgement, ...]:
    return answers(rule.judge(subject, study))


def _words(error: Exception) -> str:
    return f"{type(error).__name__}: {error}"


def crash_problem(pack: Pack, rule: str, crashes: Sequence[Crash]) -> RunProblem:
    """One problem for all crashes of a rule, with the first of them."""
    import traceback

    subject, error = crashes[0]
    cause = error.__cause__ or error
    more = f", and {len(crashes) - 1} times more" if len(crashes) > 1 else ""
    words = str(error) if isinstance(error, MisdeedError) else _words(error)
    return RunProblem(
        kind="rule",
        about=rule,
        what=f"rule {rule} (pack {pack.card.name} {pack.card.version}) crashed on {subject}: "
        f"{words}{more}",
        trace="".join(traceback.format_exception(cause)),
    )


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
