"""Verdicts before and after, side by side; shared with what was measured."""

from __future__ import annotations

from typing import NamedTuple

from coordination.comparison.pairing import other_verdicts, paired


class One(NamedTuple):
    """A verdict."""

    rule: str
    subject: str
    verdict: str


def test_every_rule_and_subject_of_both_is_paired_once() -> None:
    old = [One("a", "x", "pass"), One("b", "x", "fail")]
    new = [One("b", "x", "pass"), One("b", "y", "fail")]
    assert [each.verdicts for each in paired(old, new)] == [
        ("pass", ""), ("fail", "pass"), ("", "fail"),
    ]  # fmt: skip


def test_equal_verdicts_are_no_change() -> None:
    old = [One("a", "x", "pass"), One("a", "y", "pass")]
    new = [One("a", "x", "pass"), One("a", "y", "unproven")]
    (change,) = other_verdicts(old, new)
    assert (change.before, change.after) == (old[1], new[1])
