"""Asks one rule about every subject in every condition; a failed call costs its own answer only."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from operator import is_not
from typing import Any, NamedTuple, Protocol

from coordination.model import System
from coordination.rules.belief import Belief, answers
from coordination.rules.calls import Calls, MisdeedError, TimeLimit
from coordination.rules.card import Card
from coordination.rules.finding import Finding
from coordination.rules.judgement import Judgement, unproven
from coordination.rules.memory import capped_by_card
from coordination.rules.pack import Pack
from coordination.rules.problem import RunProblem
from coordination.rules.rule import Judge, Rule
from coordination.rules.worst import Asked, worst


class Studied(Protocol):
    """What `judge` itself needs of a study; rules ask it for much more."""

    @property
    def system(self) -> System: ...
    @property
    def problems(self) -> tuple[str, ...]: ...
    def subjects(self, kind: str) -> tuple[Any, ...]: ...


#: What rules are asked about: each with its kind.
Subjects = tuple[tuple[str, Any], ...]


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
        self._named: dict[tuple[str, ...], tuple[list[Any], Subjects]] = {}
        self.crashes: list[Crash] = []
        self._too_slow = False

    def findings(self, pack: Pack, rule: Rule, studies: Mapping[str, Studied]) -> Iterator[Finding]:
        """One finding for each subject that the rule concerns: its worst condition."""
        self.crashes, self._too_slow = [], False
        asked: dict[str, list[Asked]] = {}
        subjects: dict[str, tuple[str, Any]] = {}
        for condition, study in studies.items():
            for kind, subject in self._subjects(rule, condition, study):
                name = subject.name
                for answer in self._ask(rule, subject, study, condition):
                    if name in asked:
                        asked[name].append(Asked(condition, answer))
                    else:
                        asked[name] = [Asked(condition, answer)]
                        subjects[name] = kind, subject
        full_name = pack.full_name(rule)
        for name, each in asked.items():
            kind, subject = subjects[name]
            yield _finding(full_name, rule.card, kind, subject, self._worst(rule, name, each))

    def _subjects(self, rule: Rule, condition: str, study: Studied) -> Subjects:
        """What the rule is asked about, with its kind, each once."""
        groups: list[Any] = []
        for each in rule.each:
            try:
                groups.append(study.subjects(each))
            except Exception as error:
                self.crashes.append(Crash(f"every {each} in condition {condition}", error))
                groups.append(())
        known = self._named.get(rule.each)
        # A drawing has the same subjects in every condition, and for every rule.
        if known is None or any(map(is_not, groups, known[0])):
            named: dict[str, tuple[str, Any]] = {}
            for each, group in zip(rule.each, groups, strict=True):
                for subject in group:
                    named.setdefault(subject.name, (getattr(subject, "kind", each), subject))
            known = self._named[rule.each] = groups, tuple(named.values())
        return known[1]

    def _ask(self, rule: Rule, subject: Any, study: Studied, condition: str) -> Sequence[Judgement]:
        """The rule's answers about a subject; a misdeed is one unproven answer."""
        if self._too_slow:
            return (unproven("rule crashed: not asked again after it took too long"),)
        try:
            given = self._calls(_answers, rule.judge, subject, study)
            believed = self._belief.believed
            for answer in given:
                if believed(answer).verdict == "fail":
                    break
            else:
                return given
            return [self._held(answer, rule) for answer in given]
        except Exception as error:
            return (self._crashed(subject.name, condition, error),)

    def _held(self, answer: Judgement, rule: Rule) -> Judgement:
        """An answer with its figures looked at, where it fails; it may not prove as much."""
        if self._belief.believed(answer).verdict == "fail":
            self._belief.check_figures(answer)
        return capped_by_card(answer, rule.card)

    def _worst(self, rule: Rule, name: str, each: list[Asked]) -> Asked:
        """The answer that counts; one whose derivation is none is a misdeed too."""
        while True:
            chosen = worst(each, rule.card.severity)
            try:
                self._belief.check_figures(chosen.answer)
                return chosen
            except Exception as error:
                place = next(n for n, one in enumerate(each) if one.condition == chosen.condition
                             and _same_figures(one.answer, chosen.answer))  # fmt: skip
                each[place] = Asked(chosen.condition, self._crashed(name, chosen.condition, error))

    def _crashed(self, name: str, condition: str, error: Exception) -> Judgement:
        """Notes what the rule did; what stands in place of its answers."""
        crash = error if isinstance(error, MisdeedError) else MisdeedError(_words(error))
        if crash is not error:
            crash.__cause__ = error
        self._too_slow = isinstance(crash.__cause__, TimeLimit)
        self.crashes.append(Crash(f"{name} in condition {condition}", crash))
        return unproven(f"rule crashed: {crash}")


def _same_figures(one: Judgement, other: Judgement) -> bool:
    return one.found is other.found and one.required is other.required


def _answers(judge: Judge, subject: Any, study: Studied) -> Sequence[Judgement]:
    given = judge(subject, study)
    if given.__class__ is Judgement:
        return (given,)
    return () if given is None else answers(given)


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


def _finding(rule: str, card: Card, kind: str, subject: Any, asked: Asked) -> Finding:
    answer = asked.answer
    part = getattr(subject, "part", None)
    return Finding(
        rule=rule,
        card=card,
        subject=subject.name,
        kind=kind,
        line=subject.line,
        condition=asked.condition,
        verdict=answer.verdict,
        severity=answer.severity or card.severity,
        source=answer.source or card.source,
        found=answer.found,
        relation=answer.relation,
        required=answer.required,
        margin=answer.margin,
        missing=answer.missing,
        reason=answer.reason,
        part=None if part is None else part.id,
    )
