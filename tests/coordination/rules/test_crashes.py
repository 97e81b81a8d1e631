"""A rule that crashes or answers nonsense proves nothing, and makes the run incomplete."""

from __future__ import annotations

from typing import Any

import pytest

from coordination.rules import (
    Judgement,
    Unknown,
    fail,
    passed,
)
from tests.coordination.rules.fakes import FakeStudy, crash, fuse, rule_of, run


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
