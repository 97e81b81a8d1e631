"""A case fails when the engine's findings are not exactly those it states."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import fusewright_fundamentals
import pytest

from coordination.testing import CaseError, Expected, check_case, collect_cases

CASES = {
    str(case): case for case in collect_cases(Path(fusewright_fundamentals.__path__[0]) / "cases")
}
GOOD = CASES["interrupt-rating: rated above the duty of both sides passes"]


def fuse_1(**changes):
    wrong = replace(GOOD.expected[0], **changes)
    return replace(GOOD, expected=(wrong, *GOOD.expected[1:]))


def test_a_good_case_holds():
    check_case(GOOD)


@pytest.mark.parametrize(
    ("case", "words"),
    [
        (fuse_1(verdict="fail"), "expected fail, not pass"),
        (fuse_1(found="6.51 kA"), "found"),
        (fuse_1(required="19 kA"), "required"),
        (fuse_1(margin="3.07"), "margin"),
        (fuse_1(condition="one pack"), "condition"),
        (fuse_1(severity="damage"), "severity"),
        (fuse_1(missing=("a figure",)), "missing"),
        (fuse_1(reason="because"), "reason"),
        (fuse_1(subject="fuse 9"), "fuse 9: no finding"),
        (replace(GOOD, expected=GOOD.expected[1:]), "fuse 1: not expected: pass"),
        (replace(GOOD, expected=GOOD.expected[1:], others=("fail",)), "not expected"),
        (replace(GOOD, edge="inside"), "not just inside"),
    ],
)
def test_any_difference_is_told(case, words):
    with pytest.raises(AssertionError, match=words):
        check_case(case)


def test_others_may_have_the_verdicts_that_are_listed():
    check_case(replace(GOOD, expected=GOOD.expected[1:], others=("fail", "pass")))


@pytest.mark.parametrize(
    "changes",
    [{"string 1/2.length": "1 V"}, {"string 1/9.length": "1 m"}, {"string 1/2.colour": "red"}],
)
def test_a_system_that_cannot_be_read_is_an_error_of_the_case(changes):
    with pytest.raises(CaseError):
        check_case(replace(GOOD, changes=changes))


def test_a_finding_with_a_margin_at_the_edge_is_held_to_it():
    near = CASES["interrupt-rating: just outside"]
    check_case(near)
    with pytest.raises(AssertionError, match="not just inside"):
        check_case(replace(near, edge="inside"))


def test_an_expectation_needs_only_subject_and_verdict():
    only = tuple(Expected(subject=each.subject, verdict="pass") for each in GOOD.expected)
    check_case(replace(GOOD, expected=only))
