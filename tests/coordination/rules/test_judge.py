"""One finding per rule and subject, the worst condition named; nothing unproven passes."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Any

import pytest

from coordination.model import Element, Place, System, Waiver
from coordination.rules import (
    COMMON_PRACTICE,
    Card,
    Judgement,
    PackCard,
    Rule,
    Source,
    Unknown,
    compare,
    fail,
    given,
    note,
    passed,
    rule,
    unproven,
)
from coordination.rules.judge import judge
from coordination.rules.pack import Pack, Packs
from coordination.rules.problem import RunProblem

PLACE = Place(name="locker", line=1)
CARD = PackCard(
    name="mine",
    title="t",
    api=1,
    version="1",
    edition="e",
    in_force="2026-01-01",
    scope="s",
    not_covered=("x",),
)


def system(*waivers: Waiver) -> System:
    return System(
        name="s",
        line=1,
        file="s.yaml",
        nominal_voltage=24.0,
        packs=("mine",),
        ampacity_basis=None,
        places={},
        sources={},
        busbars={},
        equipment={},
        converters={},
        circuits={},
        conditions={},
        waivers=waivers,
    )


def fuse(name: str) -> Element:
    return Element(
        name=name, line=7, kind="fuse", circuit="c", number=1, start="a", end="b", place=PLACE
    )


@dataclass
class FakeStudy:
    """Just enough of a study: subjects by kind, and what rules here ask for."""

    name: str = "normal"
    system: System = field(default_factory=system)
    problems: tuple[str, ...] = ()
    fuses: tuple[Any, ...] = (fuse("f1"),)

    def subjects(self, kind: str) -> tuple[Any, ...]:
        return self.fuses if kind in ("fuse", "device") else ()


def rule_of(judge_one: Any, name: str = "some-rule", each: Any = "fuse") -> Rule:
    card = Card(
        name=name,
        title="t",
        why="w",
        wrong="w",
        right="r",
        severity="damage",
        source=COMMON_PRACTICE,
    )
    return rule(card, each=each)(judge_one)


def run(*rules: Rule, studies: Any = None, problems: Any = (), only: Any = ()) -> Any:
    return judge(
        studies or {"normal": FakeStudy()}, Packs((Pack(CARD, rules),), problems), only=only
    )


def amps(value: float) -> Any:
    return given("current", "I", value, "A", Source("part data", "x"))


def at_margin(margin: float) -> Judgement:
    return compare(amps(100.0), at_most=amps(100.0 * margin))


def by_condition(**answers: Any) -> Any:
    """A rule and studies that give these answers, one a condition."""
    studies = {name: FakeStudy(name) for name in answers}
    return run(rule_of(lambda _, study: answers[study.name]), studies=studies)


@pytest.mark.parametrize(
    ("answers", "condition", "verdict"),
    [
        ({"a": passed("x"), "b": fail("y")}, "b", "fail"),
        ({"a": unproven("m"), "b": fail("y")}, "b", "fail"),
        ({"a": passed("x"), "b": unproven("m")}, "b", "unproven"),
        ({"a": passed("y"), "b": note("x", source=COMMON_PRACTICE)}, "b", "note"),
        ({"a": note("x", source=COMMON_PRACTICE), "b": None}, "a", "note"),
        ({"a": at_margin(1.5), "b": at_margin(1.2), "c": passed("x")}, "b", "pass"),
        ({"a": at_margin(0.8), "b": at_margin(0.5)}, "b", "fail"),
        ({"a": at_margin(0.5), "b": fail("y", severity="fire")}, "b", "fail"),
        ({"a": fail("y", severity="fire"), "b": at_margin(0.01)}, "a", "fail"),
        ({"a": passed("x"), "b": passed("y")}, "a", "pass"),
        ({"a": [passed("x"), unproven("m")], "b": passed("y")}, "a", "unproven"),
    ],
)
def test_the_worst_condition_stands_for_all(answers, condition, verdict):
    (finding,) = by_condition(**answers).findings
    assert (finding.condition, finding.verdict) == (condition, verdict)


def test_what_is_missing_is_gathered_over_conditions_and_answers():
    (finding,) = by_condition(a=[unproven("m"), unproven("n")], b=unproven("n", "o")).findings
    assert finding.missing == ("m", "n", "o")


def test_a_rule_that_does_not_concern_a_subject_makes_no_finding_and_the_run_unproven():
    answer = run(rule_of(lambda *_: None))
    assert answer.findings == ()
    assert (answer.verdict, answer.exit_status) == ("unproven", 3)


@pytest.mark.parametrize(
    ("answer", "verdict", "status"),
    [
        (passed("x"), "pass", 0),
        (fail("x"), "fail", 1),
        (unproven("m"), "unproven", 3),
        (note("x", source=COMMON_PRACTICE), "pass", 0),
    ],
)
def test_the_verdict_of_a_run(answer, verdict, status):
    result = run(rule_of(lambda *_: answer))
    assert (result.verdict, result.exit_status) == (verdict, status)
    assert sum(result.counts.values()) == 1
    assert set(result.counts) == {"pass", "fail", "unproven", "note", "waived"}


def crash(*_: Any) -> Any:
    raise KeyError("no such fuse")


def crash_later(*_: Any) -> Any:
    yield passed("x")
    raise RecursionError("too deep")


@pytest.mark.parametrize(
    "broken",
    [
        crash,
        crash_later,
        lambda *_: "pass",
        lambda *_: True,
        lambda *_: [None],
        lambda *_: Judgement(verdict="fine"),  # type: ignore[arg-type]
        lambda *_: Judgement(verdict="pass", found=Unknown("x", ("y",))),
        lambda *_: Judgement(verdict="pass", missing=("y",)),
        lambda *_: Judgement(verdict="pass", relation="<=", margin=0.5),
    ],
)
def test_a_rule_that_crashes_or_answers_nonsense_proves_nothing(broken):
    result = run(rule_of(broken), rule_of(lambda *_: passed("x"), name="other-rule"))
    crashed, other = sorted(result.findings, key=lambda finding: finding.rule != "mine/some-rule")
    assert crashed.verdict == "unproven"
    assert crashed.missing[0].startswith("rule crashed: ")
    assert other.verdict == "pass"
    (problem,) = result.problems
    assert problem.kind == "rule"
    assert problem.trace
    assert result.exit_status == 3


def test_a_crash_beside_a_fail_still_fails():
    result = run(rule_of(crash), rule_of(lambda *_: fail("x"), name="other-rule"))
    assert result.exit_status == 1


def test_crashes_of_one_rule_are_told_once_with_their_number():
    studies = {name: FakeStudy(name, fuses=(fuse("a"), fuse("b"))) for name in ("x", "y")}
    result = run(rule_of(crash), studies=studies)
    (problem,) = result.problems
    assert "a in condition x" in problem.what
    assert "3 times more" in problem.what
    assert [finding.verdict for finding in result.findings] == ["unproven", "unproven"]


def test_subjects_that_cannot_be_listed_make_the_run_incomplete():
    class Broken(FakeStudy):
        def subjects(self, kind: str) -> tuple[Any, ...]:
            raise ValueError(kind)

    result = run(rule_of(lambda *_: passed("x")), studies={"normal": Broken()})
    assert result.problems[0].incomplete
    assert result.exit_status == 3


@pytest.mark.parametrize("incomplete", [True, False])
def test_a_problem_makes_a_passing_run_unproven_unless_it_is_information(incomplete):
    problem = RunProblem(kind="pack", what="gone", incomplete=incomplete)
    result = run(rule_of(lambda *_: passed("x")), problems=(problem,))
    assert result.verdict == ("unproven" if incomplete else "pass")


def test_what_a_study_could_not_take_in_is_a_problem_once():
    studies = {name: FakeStudy(problems=("two voltages joined",)) for name in ("a", "b")}
    result = run(rule_of(lambda *_: passed("x")), studies=studies)
    assert [(each.about, each.what) for each in result.problems] == [("a", "two voltages joined")]
    assert result.exit_status == 3


def waiver(rule_name: str = "mine/some-rule", subject: str = "f1") -> Waiver:
    return Waiver(
        rule=rule_name, subject=subject, reason="r", by="foreman", date=date(2026, 3, 2), line=9
    )


def waived(answer: Judgement, *waivers: Waiver, only: Any = ()) -> Any:
    studies = {"normal": FakeStudy(system=system(*waivers))}
    return run(rule_of(lambda *_: answer), studies=studies, only=only)


def test_a_waived_fail_stays_visible_with_its_numbers():
    result = waived(at_margin(0.5), waiver())
    (finding,) = result.findings
    assert finding.verdict == "waived"
    assert finding.margin == pytest.approx(0.5)
    assert finding.waiver == waiver()
    assert result.exit_status == 0
    assert result.problems == ()


@pytest.mark.parametrize(
    ("answer", "status", "words"),
    [(unproven("m"), 3, "only a fail"), (passed("x"), 0, "not needed")],
)
def test_only_a_fail_can_be_waived(answer, status, words):
    result = waived(answer, waiver())
    assert result.findings[0].verdict == answer.verdict
    assert result.exit_status == status
    assert words in result.problems[0].what
    assert not result.problems[0].incomplete


def test_a_waiver_that_matches_nothing_is_told():
    result = waived(fail("x"), waiver(subject="f2"), waiver(rule_name="some-rule"))
    assert result.findings[0].verdict == "fail"
    assert [problem.line for problem in result.problems] == [9, 9]


def test_a_waiver_for_a_rule_that_was_not_asked_is_no_news():
    result = waived(fail("x"), waiver("other/rule"), only=("some-rule",))
    assert result.problems == ()


def test_findings_are_sorted_by_subject_then_rule_whatever_the_order_of_packs():
    studies = {"normal": FakeStudy(fuses=(fuse("b"), fuse("a")))}
    rules = [rule_of(lambda *_: passed("x"), name=name) for name in ("z-rule", "a-rule")]
    found = [(each.subject, each.rule) for each in run(*rules, studies=studies).findings]
    assert found == [
        ("a", "mine/a-rule"),
        ("a", "mine/z-rule"),
        ("b", "mine/a-rule"),
        ("b", "mine/z-rule"),
    ]


@pytest.mark.parametrize("name", ["a-rule", "mine/a-rule"])
def test_only_the_rules_asked_for_are_asked(name):
    rules = [rule_of(lambda *_: passed("x"), name="a-rule"), rule_of(crash, name="z-rule")]
    result = run(*rules, only=(name,))
    assert [finding.rule for finding in result.findings] == ["mine/a-rule"]
    assert result.exit_status == 0


def test_a_rule_that_no_pack_has_makes_the_run_incomplete():
    result = run(rule_of(lambda *_: passed("x")), only=("some-rule", "no-rule"))
    assert "no-rule" in result.problems[0].what
    assert result.exit_status == 3


def test_a_subject_of_two_kinds_is_judged_once():
    result = run(rule_of(lambda *_: passed("x"), each=("fuse", "device")))
    assert len(result.findings) == 1


def test_severity_and_source_come_from_the_answer_before_the_card():
    own = Judgement(verdict="fail", severity="fire", source=Source("X:2020", "1"))
    (finding,) = run(rule_of(lambda *_: own)).findings
    assert (finding.severity, finding.source.document) == ("fire", "X:2020")
    (finding,) = run(rule_of(lambda *_: fail("x"))).findings
    assert (finding.severity, finding.source) == ("damage", COMMON_PRACTICE)
