"""A pack outside its scope says so and judges nothing; where that cannot be told, it says what."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from coordination.rules import COMMON_PRACTICE, Card, PackCard, Scope, passed, rule
from coordination.rules.judge import judge
from coordination.rules.pack import Pack, Packs

SYSTEM = SimpleNamespace(name="Tern", line=1, waivers=(), file="t.yaml")
FUSE = SimpleNamespace(name="f1", kind="fuse", line=3, part=None)
CARD = Card(
    name="a-rule", title="t", why="w", wrong="w", right="r", severity="fire",
    source=COMMON_PRACTICE, basis="practice",
)  # fmt: skip
RULE = rule(CARD, each="fuse")(lambda *_: passed("x"))


def run(test: Any, *conditions: str, beside: tuple[Pack, ...] = ()) -> Any:
    studies = {
        name: SimpleNamespace(system=SYSTEM, problems=(), name=name, subjects=lambda _: (FUSE,))
        for name in conditions or ("normal",)
    }
    card = PackCard(
        name="mine", title="t", api=1, version="1", edition="e", in_force="2026-01-01",
        scope="boats", not_covered=("x",), scope_test=test,
    )  # fmt: skip
    return judge(studies, Packs((Pack(card, (RULE,)), *beside)))


def test_within_its_scope_a_pack_judges():
    result = run(lambda _: Scope(True, "afloat"))
    assert [(each.rule, each.verdict) for each in result.findings] == [("mine/a-rule", "pass")]
    assert result.scopes["mine"].reason == "afloat"
    assert result.exit_status == 0


def test_outside_it_there_is_a_note_and_nothing_was_shown():
    result = run(lambda _: Scope(False, "a cabin"))
    (finding,) = result.findings
    assert (finding.rule, finding.verdict, finding.subject) == ("mine/scope", "note", "Tern")
    assert finding.reason.startswith("a cabin: outside its scope (boats)")
    assert "none of its 1 rules was judged" in finding.reason
    assert result.verdict == "unproven"
    assert result.exit_status == 3


def test_a_pack_outside_its_scope_takes_nothing_from_another():
    card = PackCard(
        name="other", title="t", api=1, version="1", edition="e", in_force="2026-01-01",
        scope="s", not_covered=("x",),
    )  # fmt: skip
    result = run(lambda _: Scope(False, "a cabin"), beside=(Pack(card, (RULE,)),))
    assert {each.rule: each.verdict for each in result.findings} == {
        "mine/scope": "note",
        "other/a-rule": "pass",
    }
    assert result.exit_status == 0


def test_where_it_cannot_be_told_what_to_state_is_named():
    result = run(lambda _: Scope(None, "no fuel stated", ("options: mine: fuel",)))
    (finding,) = result.findings
    assert (finding.rule, finding.verdict) == ("mine/scope", "unproven")
    assert finding.missing == ("options: mine: fuel",)
    assert result.exit_status == 3


@pytest.mark.parametrize(
    ("answers", "rules"),
    [
        ({"a": False, "b": True}, ["mine/a-rule"]),
        ({"a": None, "b": True}, ["mine/a-rule"]),
        ({"a": False, "b": None}, ["mine/scope"]),
        ({"a": False, "b": False}, ["mine/scope"]),
    ],
)
def test_a_pack_speaks_of_a_system_if_it_does_in_any_condition(answers, rules):
    result = run(lambda study: Scope(answers[study.name], "x", ("y",)), *answers)
    assert [each.rule for each in result.findings] == rules
    verdict = {
        "mine/a-rule": "pass",
        "mine/scope": "unproven" if None in answers.values() else "note",
    }
    assert result.findings[0].verdict == verdict[rules[0]]


@pytest.mark.parametrize("test", [lambda _: 1 / 0, lambda _: True, lambda _: Scope(True, None)])
def test_a_scope_test_that_crashes_proves_nothing(test):
    result = run(test)
    (finding,) = result.findings
    assert (finding.rule, finding.verdict) == ("mine/scope", "unproven")
    assert result.problems[0].about == "mine/scope"
    assert result.exit_status == 3
