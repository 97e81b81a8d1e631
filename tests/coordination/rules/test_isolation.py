"""What a rule does wrong costs its own verdict and the exit status, never another rule's."""

from __future__ import annotations

import sys
import threading
import time
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from catalogue.store import open_catalogue
from coordination.network import connect
from coordination.reading import read
from coordination.rules import (
    COMMON_PRACTICE,
    Card,
    Derived,
    Judgement,
    Rule,
    Source,
    Unknown,
    compare,
    fail,
    given,
    passed,
    rule,
)
from coordination.rules.judge import judge
from coordination.rules.pack import Pack, Packs
from coordination.study import study
from tests.coordination.rules.fakes import pack_card, rule_of

SYSTEM = Path(__file__).parents[3] / "fixtures/systems/small/p02-rating-at-14-v.yaml"


@pytest.fixture(scope="module")
def studies() -> Any:
    with open_catalogue(None) as catalogue:
        system = read(str(SYSTEM), catalogue)
    return {name: study(connect(system, name)) for name in system.conditions}


def pack(name: str, *rules: Rule) -> Pack:
    return Pack(pack_card(name, version="7"), rules)


def made(judge_one: Any, name: str = "bad-rule", each: str = "fuse") -> Rule:
    return rule_of(judge_one, name, each, severity="fire", basis="physics")


GOOD = made(lambda *_: passed("it is a fuse"), "good-rule")


def amps(value: Any, **more: Any) -> Derived:
    return Derived("current", "I", value, "A", **more)


def prints(*_: Any) -> Judgement:
    print("hello")
    return passed("x")


def complains(*_: Any) -> Judgement:
    sys.stderr.write("hello")
    return passed("x")


def leaves(*_: Any) -> Judgement:
    sys.exit(0)


def closes(*_: Any) -> Judgement:
    raise GeneratorExit


def renames(fuse: Any, _: Any) -> Judgement:
    fuse.name = "another"
    return passed("x")


def rerates(fuse: Any, _: Any) -> Judgement:
    fuse.part.rated_current = 1e6
    return passed("x")


def rewrites(fuse: Any, _: Any) -> Judgement:
    fuse.part.written["rated_current"] = "1 MA"
    return passed("x")


def empties(_: Any, study: Any) -> Judgement:
    study.system.sources.clear()
    return passed("x")


def replaces(_: Any, study: Any) -> Judgement:
    study.duty = lambda _: amps(0.0)
    return passed("x")


def reopens(_: Any, study: Any) -> Judgement:
    study.condition.draw["inverter"] = 0.0
    return passed("x")


def endless(*_: Any) -> Any:
    while True:
        yield passed("x")


MISDEEDS = [
    (prints, "printed 'hello"),
    (complains, "printed 'hello"),
    (leaves, "SystemExit: 0"),
    (closes, "GeneratorExit"),
    (lambda *_: 1 / 0, "ZeroDivisionError"),
    (renames, "cannot assign to field 'name'"),
    (rerates, "cannot assign to field 'rated_current'"),
    (rewrites, "does not support item assignment"),
    (empties, "AttributeError"),
    (replaces, "a study is read-only"),
    (reopens, "does not support item assignment"),
    (endless, "more than 100 answers"),
    (lambda *_: "pass", "'pass'"),
    (lambda *_: {"verdict": "pass"}, "not {'verdict'"),
    (lambda *_: 5, "not iterable"),
    (lambda *_: Judgement(verdict="pass", found=5.0), "5.0 where a Derived"),
    (lambda *_: Judgement(verdict="pass", reason=None), "reason is None"),
    (lambda *_: Judgement(verdict="pass", margin="1.5"), "margin is '1.5'"),
    (lambda *_: Judgement(verdict="pass", margin=float("nan")), "a pass with margin nan"),
    (lambda *_: Judgement(verdict="fail", severity="huge"), "severity is 'huge'"),
    (lambda *_: Judgement(verdict="fail", relation="<"), "relation is '<'"),
    (lambda *_: Judgement(verdict="fail", source="clause 8"), "source is 'clause 8'"),
    (lambda *_: Judgement(verdict="unproven"), "nothing missing"),
    (lambda *_: Judgement(verdict="unproven", missing="abc"), "missing is 'abc'"),
    (lambda *_: Judgement(verdict="unproven", missing=("a",), found=Unknown("", "b")), "`missing`"),
    (lambda *_: compare(amps(1.0, inputs=(amps("2"),)), at_most=amps(2.0)), "value '2'"),
    (lambda *_: compare(amps(1.0, inputs=(3.0,)), at_most=amps(2.0)), "3.0 where a Derived"),
    (lambda *_: compare(amps(1.0, source="UL 248"), at_most=amps(2.0)), "has its Source"),
    (lambda *_: compare(amps(1.0, formula=5), at_most=amps(2.0)), "has texts"),
]  # fmt: skip


@pytest.mark.parametrize(("misdeed", "words"), MISDEEDS)
def test_a_misdeed_costs_its_own_verdict_only(studies, misdeed, words, capsys):
    packs = Packs((pack("first", made(misdeed)), pack("second", GOOD)))
    result = judge(studies, packs)
    bad = [each for each in result.findings if each.rule == "first/bad-rule"]
    good = [each for each in result.findings if each.rule == "second/good-rule"]
    assert {each.verdict for each in bad} == {"unproven"}
    assert all(words in each.missing[0] for each in bad), bad[0].missing
    assert {each.verdict for each in good} == {"pass"}
    assert len(good) == len(bad) > 0
    (problem,) = result.problems
    assert problem.what.startswith("rule first/bad-rule (pack first 7) crashed on ")
    assert words in problem.what
    assert result.exit_status == 3
    assert capsys.readouterr() == ("", "")


def test_what_rules_did_wrong_changed_nothing(studies):
    system = next(iter(studies.values())).system
    assert system.sources
    with open_catalogue(None) as catalogue:
        assert read(str(SYSTEM), catalogue) == system


def stubborn(*_: Any) -> Judgement:
    while True:
        try:
            while True:
                pass
        except Exception:
            pass


@pytest.mark.parametrize("loop", [stubborn, lambda *_: time.sleep(60)])
def test_a_rule_that_loops_is_stopped_once_and_not_asked_again(studies, loop):
    packs = Packs((pack("first", made(loop, each="element")), pack("second", GOOD)))
    began = time.monotonic()
    result = judge(studies, packs, limit=0.3)
    assert time.monotonic() - began < 2.0
    bad = [each for each in result.findings if each.rule == "first/bad-rule"]
    assert len(bad) == len(next(iter(studies.values())).system.elements()) > 1
    assert {each.verdict for each in bad} == {"unproven"}
    assert sum("took longer than 0.3 s" in each.missing[0] for each in bad) >= 1
    assert {each.verdict for each in result.findings if each not in bad} == {"pass"}
    assert "took longer than 0.3 s" in result.problems[0].what


def test_outside_the_main_thread_rules_are_asked_without_a_limit(studies):
    results: list[Any] = []
    thread = threading.Thread(
        target=lambda: results.append(judge(studies, Packs((pack("first", GOOD),)), limit=0.3))
    )
    thread.start()
    thread.join()
    assert {each.verdict for each in results[0].findings} == {"pass"}


def test_ctrl_c_still_ends_the_run(studies):
    def interrupted(*_: Any) -> Judgement:
        raise KeyboardInterrupt

    before = sys.stdout
    with pytest.raises(KeyboardInterrupt):
        judge(studies, Packs((pack("first", made(interrupted)),)))
    assert sys.stdout is before


def test_the_order_of_findings_does_not_depend_on_the_order_of_packs_or_rules(studies):
    other = made(lambda *_: fail("x"), "another-rule", "element")
    crash = made(lambda *_: 1 / 0, "crash-rule", "cable")
    one = judge(studies, Packs((pack("a", GOOD, other), pack("b", crash, GOOD))))
    two = judge(studies, Packs((pack("b", GOOD, crash), pack("a", other, GOOD))))
    assert len(one.findings) > 4
    assert [(f.rule, f.subject, f.verdict, f.missing) for f in one.findings] == [
        (f.rule, f.subject, f.verdict, f.missing) for f in two.findings
    ]
    assert [problem.what for problem in one.problems] == [problem.what for problem in two.problems]


def test_sections_that_crash_cost_no_finding(studies):
    broken = Pack(pack("first").card, (GOOD,), sections=lambda **_: 1 / 0)
    result = judge(studies, Packs((broken,)))
    assert {each.verdict for each in result.findings} == {"pass"}
    assert result.sections == ()
    assert "ZeroDivisionError" in result.problems[0].what
    assert result.exit_status == 3


@pytest.mark.parametrize(
    ("basis", "clause", "figure", "severity"),
    [
        ("law", Source("33 CFR 183", "1"), Source("33 CFR 183", "2"), "fire"),
        ("law", Source("33 CFR 183", "1", read=False), Source("33 CFR 183", "2"), "paperwork"),
        ("law", Source("33 CFR 183", "1"), Source("33 CFR 183", "2", read=False), "paperwork"),
        ("standard", Source("E-11", "1", read=False), Source("E-11", "2"), "paperwork"),
        ("physics", Source("E-11", "1", read=False), Source("E-11", "2", read=False), "fire"),
        ("practice", COMMON_PRACTICE, Source("E-11", "2", read=False), "fire"),
    ],
)
def test_a_figure_from_memory_fails_as_paperwork_at_most(studies, basis, clause, figure, severity):
    limit = given("limit", "I_max", 1.0, "A", figure)
    card = Card(
        name="a-rule", title="t", why="w", wrong="w", right="r", severity="fire",
        source=clause, basis=basis,
    )  # fmt: skip
    one = rule(card, each="fuse")(lambda *_: compare(amps(2.0), at_most=limit))
    finding = judge(studies, Packs((pack("first", one),))).findings[0]
    assert (finding.verdict, finding.severity) == ("fail", severity)
    said = "figure from memory: the text of the standard decides" in finding.reason
    assert said == (severity == "paperwork")


def test_a_stand_in_study_needs_no_more_than_subjects_and_system():
    empty = SimpleNamespace(system=SimpleNamespace(waivers=(), name="s"), problems=())
    empty.subjects = lambda kind: ()  # noqa: ARG005
    result = judge({"normal": empty}, Packs((pack("first", GOOD),)))
    assert (result.findings, result.exit_status) == ((), 3)
