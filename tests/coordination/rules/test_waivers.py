"""A fail that somebody accepted stays visible; nothing else can be waived."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from coordination.model import Waiver
from coordination.rules import (
    Judgement,
    fail,
    passed,
    unproven,
)
from tests.coordination.rules.fakes import FakeStudy, at_margin, rule_of, run, system


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
