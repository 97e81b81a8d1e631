"""One finding per rule and subject, the worst condition named; nothing unproven passes."""

from __future__ import annotations

from typing import Any

import pytest

from coordination.rules import (
    COMMON_PRACTICE,
    Judgement,
    Source,
    fail,
    note,
    passed,
    unproven,
)
from coordination.rules.problem import RunProblem
from tests.coordination.rules.fakes import FakeStudy, at_margin, crash, fuse, rule_of, run


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
