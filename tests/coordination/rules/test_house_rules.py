"""House rules: limits as data in a closed vocabulary, explained like any rule."""

# ruff: noqa: E501 -- a case a line
from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from coordination.checking import Request, findings_of
from coordination.checking.local import Local
from coordination.errors import BadInput
from coordination.rules.house import read_house_rules
from coordination.rules.house.vocabulary import KINDS, WORDS, words_for

SYSTEM = """
system: Tern
nominal_voltage: 12 V
places: {engine: {ambient: 50 °C, engine_space: yes}}
parts:
  lithium: {kind: battery, chemistry: lfp, capacity: 280 Ah, nominal_voltage: 12.8 V,
    emf: {min: 12.4 V, max: 13.6 V}, charge_voltage: 14.4 V, resistance: {min: 1 mΩ, max: 2 mΩ}}
  acid: {kind: battery, chemistry: lead-acid agm, capacity: 90 Ah, nominal_voltage: 12 V,
    emf: {min: 11.8 V, max: 12.9 V}, charge_voltage: 14.4 V, resistance: {min: 3 mΩ, max: 6 mΩ}}
  t-150: {kind: fuse, family: Class-T, rated_current: 150 A, rated_voltage: 125 V,
    interrupt_ratings: [{voltage: 125 V, current: 20 kA}]}
  strip-60: {kind: fuse, family: strip, rated_current: 60 A, rated_voltage: 32 V,
    interrupt_ratings: [{voltage: 32 V, current: 5 kA}]}
  nameless: {kind: fuse, rated_current: 10 A, rated_voltage: 32 V}
  thick: {kind: cable, area: 50 mm², insulation_temperature: 105 °C, voltage: 600 V}
  thin: {kind: cable, area: 1.5 mm², insulation_temperature: 105 °C, voltage: 600 V}
  sizeless: {kind: cable, insulation_temperature: 105 °C, voltage: 600 V}
  bar: {kind: busbar, rated_current: 200 A, voltage: 60 V}
sources:
  house: {part: lithium}
  start: {part: acid, place: engine}
  charger: {current_limited: 20 A, voltage: 14.4 V}
busbars: {bus: {part: bar}, start bus: {part: bar}}
equipment:
  pump: {current: 30 A, critical: yes}
  lamp: {current: 2 A, critical: no}
  horn: {current: 5 A}
circuits:
  house feed: {from: house, to: bus, parts: [{fuse: t-150, name: main}, {cable: thick, length: 1 m}]}
  charge: {from: charger, to: bus, parts: [{fuse: strip-60, name: charge fuse}, {cable: thick, length: 1 m}]}
  pump feed: {from: bus, to: pump, parts: [{fuse: strip-60, name: pump fuse}, {cable: thin, length: 2 m}]}
  start feed: {from: start, to: start bus, parts: [{fuse: strip-60, name: start fuse, distance: 200 mm}, {cable: thick, length: 1 m, runs: 2}]}
  horn feed: {from: start bus, to: horn, parts: [{fuse: nameless, name: horn fuse}, {cable: sizeless, length: 2 m}]}
  lamp feed: {from: start bus, to: lamp, parts: [{cable: thin, length: 2 m}]}
"""


@pytest.fixture
def judged(tmp_path: Path) -> Any:
    """Verdicts by subject of one house rule, written on one line."""

    def run(entry: str) -> dict[str, str]:
        return {each.subject: each.verdict for each in findings(entry)}

    def findings(entry: str) -> list[Any]:
        (tmp_path / "tern.yaml").write_text(SYSTEM, "utf-8")
        (tmp_path / "house.yaml").write_text(
            f"house_rules: T\nrules:\n  a-rule: {entry}\n", "utf-8"
        )
        local = Local(house_rules=(str(tmp_path / "house.yaml"),))
        found = findings_of(Request(str(tmp_path / "tern.yaml"), local=local))
        assert not [each for each in found.problems if "house" in each.about], found.problems
        return [each for each in found.findings if each.rule == "house/a-rule"]

    run.findings = findings  # type: ignore[attr-defined]
    return run


@pytest.mark.parametrize(
    ("entry", "expected"),
    [
        # Only the fuse at the lithium battery is meant; its family is read without its capitals.
        ("{every: fuse, where: {directly_on: lithium battery}, family: class-t}", {"main": "pass"}),
        ("{every: fuse, where: {directly_on: lithium battery}, family: strip}", {"main": "fail"}),
        ("{every: fuse, where: {directly_on: battery}, family: class-t}",
         {"main": "pass", "start fuse": "fail"}),
        ("{every: fuse, where: {directly_on: lead-acid battery}, family: [blade, strip]}",
         {"start fuse": "pass"}),
        ("{every: fuse, where: {place: nowhere}, family: strip}", {}),
        # What is not stated is unproven, whether limited or a condition.
        ("{every: fuse, where: {rated_current: '<= 10 A'}, family: blade}", {"horn fuse": "unproven"}),
        ("{every: fuse, where: {family: blade}, rated_current: '<= 200 A'}", {"horn fuse": "unproven"}),
        ("{every: cable, where: {place: engine}, area: '>= 2.5 mm²'}", {}),
        ("{every: cable, area: '>= 2.5 mm²'}",
         {"house feed/2": "pass", "charge/2": "pass", "pump feed/2": "fail", "start feed/2": "pass",
          "horn feed/2": "unproven", "lamp feed/1": "fail"}),
        ("{every: cable, where: {length: '>= 1.5 m', area: '<= 1.5 mm²'}, insulation_temperature: '>= 90 °C'}",
         {"pump feed/2": "pass", "lamp feed/1": "pass", "horn feed/2": "unproven"}),
        ("{every: cable, where: {runs: '>= 2'}, area: '>= 35 mm²'}", {"start feed/2": "pass"}),
        # Limited sources are no batteries.
        ("{every: battery, chemistry: [lfp, lto]}", {"house": "pass", "start": "fail"}),
        ("{every: battery, capacity: '<= 100 Ah'}", {"house": "fail", "start": "pass"}),
        ("{every: battery, where: {engine_space: yes}, chemistry: lead-acid agm}", {"start": "pass"}),
        ("{every: fuse, where: {distance: '<= 7 in'}, rated_current: '<= 200 A'}",
         {"main": "unproven", "charge fuse": "unproven", "pump fuse": "unproven",
          "horn fuse": "unproven"}),
        # The fuses on the way state no resistance; the horn not whether it is critical.
        ("{every: equipment, where: {critical: yes}, drop_share: '<= 1 %'}",
         {"pump": "unproven", "horn": "unproven"}),
        # 30 A of 60 A is half; 20 A of a charger's 60 A a third; 7 A of 60 A 12 %.
        ("{every: fuse, where: {family: strip}, load_share: '<= 49 %'}",
         {"charge fuse": "pass", "pump fuse": "fail", "start fuse": "pass", "horn fuse": "unproven"}),
        ("{every: busbar, rated_current: '>= 200 A'}", {"bus": "pass", "start bus": "pass"}),
    ],
)  # fmt: skip
def test_a_limit_holds_for_what_it_concerns(judged, entry, expected):
    assert judged(entry) == expected


def test_a_margin_of_another_rule(judged):
    entry = "{margin: {rule: fundamentals/interrupt-rating, at_least: 1.25}}"
    by_subject = {each.subject: each for each in judged.findings(entry)}
    # From the battery's side 13.6 V / 1 mΩ = 13.6 kA arrive: 20 kA / 13.6 kA = 1.471.
    main = by_subject["main"]
    assert main.verdict == "pass"
    assert main.found.value == pytest.approx(20000 / 13600, rel=1e-6)
    assert main.required.value == 1.25
    # 12.9 V / 3 mΩ = 4300 A: 5 kA / 4.3 kA = 1.163, enough for the rule and not for the house.
    start = by_subject["start fuse"]
    assert start.verdict == "fail"
    assert start.found.value == pytest.approx(5000 / 4300, rel=1e-6)
    assert by_subject["horn fuse"].verdict == "unproven"


def test_a_margin_may_concern_some_only(judged):
    entry = (
        "{every: fuse, where: {directly_on: battery}, "
        "margin: {rule: fundamentals/interrupt-rating, at_least: 1.1}}"
    )
    assert judged(entry) == {"main": "pass", "start fuse": "pass"}


def test_it_is_explained_like_any_rule(judged):
    (finding,) = judged.findings("{every: fuse, where: {directly_on: lithium battery}, family: x}")
    assert finding.card.title == "every fuse directly on lithium battery: family x"
    assert finding.card.why == "T asks for it."
    assert finding.severity == "paperwork"
    assert finding.source.clause.endswith("house.yaml, line 3")
    assert finding.reason == "family is Class-T, not x"


def test_the_shop_may_say_why_and_how_grave_it_is(judged):
    entry = (
        "{every: fuse, title: Big fuses, why: Because., severity: fire, rated_current: '>= 1 kA'}"
    )
    finding = judged.findings(entry)[0]
    assert (finding.card.title, finding.card.why, finding.severity) == (
        "Big fuses",
        "Because.",
        "fire",
    )


MISTAKES = [
    ("{every: fuze, family: x}", 1, "every cannot be 'fuze'", "fuse"),
    ("{every: fuse, famly: x}", 1, "nothing of a fuse is called 'famly'", "family"),
    ("{every: fuse, severty: fire, family: x}", 1, "called 'severty'", "severity"),
    ("{every: fuse, area: '>= 2 mm²'}", 1, "nothing of a fuse is called 'area'", ""),
    ("{every: cable, area: 2.5 mm²}", 1, "'2.5 mm²' is no limit", ""),
    ("{every: cable, area: '> 2.5 mm²'}", 1, "'> 2.5 mm²' is no limit", ""),
    ("{every: cable, area: '>= 2.5'}", 1, "area:", ""),
    ("{every: cable, area: '>= 2.5 A'}", 1, "not amperes", ""),
    ("{every: cable, runs: '>= 1.5'}", 1, "no whole number", ""),
    ("{every: cable, area: }", 1, "area has no value", ""),
    ("{every: cable, area: []}", 1, "area has no value", ""),
    ("{every: cable, area: {min: 1 mm²}}", 1, "cannot be a mapping", ""),
    ("{every: battery, chemistry: lead acid agm}", 1, "chemistry cannot be", "lead-acid agm"),
    ("{every: breaker, trip_free: ja}", 1, "trip_free cannot be 'ja'", ""),
    ("{every: fuse}", 1, "limits nothing", ""),
    ("{family: class-t}", 1, "every is missing", ""),
    (
        "{every: fuse, where: {directly_on: lithum battery}, family: x}",
        1,
        "directly_on cannot be",
        "lithium battery",
    ),
    ("{every: equipment, where: {directly_on: battery}, critical: yes}", 1, "two ends", ""),
    ("{every: fuse, where: {famly: x}, family: x}", 1, "called 'famly'", "family"),
    ("{margin: {rule: a/b, at_least: 0.9}}", 1, "at_least cannot be '0.9'", ""),
    ("{margin: {rule: a/b, at_least: much}}", 1, "at_least cannot be 'much'", ""),
    ("{margin: {rule: a/b}}", 1, "at_least is missing", ""),
    ("{every: fuse, margin: {rule: a/b, at_least: 2}, family: x}", 1, "margin stands alone", ""),
    ("{where: {family: x}, margin: {rule: a/b, at_least: 2}}", 1, "where goes with every", ""),
    ("{every: fuse, family: !!python/object/apply:os.system [ls]}", 1, "tag", ""),
    ("{every: fuse, family: &x class-t}", 1, "anchor", ""),
    ("[every, fuse]", 1, "is no mapping", ""),
]


@pytest.mark.parametrize(("entry", "problems", "words", "near"), MISTAKES)
def test_a_mistake_is_told_with_its_place(tmp_path, entry, problems, words, near):
    file = tmp_path / "house.yaml"
    file.write_text(f"house_rules: T\nrules:\n  a-rule: {entry}\n", "utf-8")
    with pytest.raises(BadInput) as caught:
        read_house_rules([str(file)])
    found = caught.value.problems
    assert len(found) == problems, found
    assert words in found[0].what
    assert (found[0].line, found[0].file) == (3, str(file))
    assert found[0].column > 1
    assert found[0].near_miss == near


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("rules: {a: {every: fuse, family: x}}", "house_rules is missing"),
        ("house_rules: T", "rules is missing"),
        ("house_rules: T\nrules: {}", "rules has no entries"),
        ("house_rules: T\nrulez: {a: {every: fuse, family: x}}", "unknown key 'rulez'"),
        ("house_rules: T\nrules: {A Rule: {every: fuse, family: x}}", "not words-with-hyphens"),
        ("- a list", "a list stands where fields are expected"),
        ("", "empty"),
    ],
)
def test_a_file_that_is_none(tmp_path, text, words):
    file = tmp_path / "house.yaml"
    file.write_text(text, "utf-8")
    with pytest.raises(BadInput) as caught:
        read_house_rules([str(file)])
    assert any(words in problem.what for problem in caught.value.problems)


def test_two_files_are_one_pack_and_no_name_stands_twice(tmp_path):
    for name, rule in (("a", "one"), ("b", "two"), ("c", "one")):
        text = f"house_rules: {name}\nrules: {{{rule}: {{every: fuse, family: x}}}}"
        (tmp_path / f"{name}.yaml").write_text(text)
    both = read_house_rules([str(tmp_path / "a.yaml"), str(tmp_path / "b.yaml")])
    assert (both.title, [entry.name for entry in both.entries]) == ("a", ["one", "two"])
    with pytest.raises(BadInput) as caught:
        read_house_rules([str(tmp_path / "a.yaml"), str(tmp_path / "c.yaml")])
    assert "already" in caught.value.problems[0].what


def test_a_margin_of_a_rule_that_is_not_there_has_a_near_miss(judged):
    with pytest.raises(BadInput) as caught:
        judged("{margin: {rule: fundamentals/interupt-rating, at_least: 1.25}}")
    (problem,) = caught.value.problems
    assert problem.near_miss == "fundamentals/interrupt-rating"
    assert (problem.line, problem.column) == (3, 27)


def test_every_word_is_asked_of_kinds_that_there_are():
    assert all(set(word.kinds) <= set(KINDS) for word in WORDS.values())
    assert all(words_for(kind) for kind in KINDS)


@pytest.mark.parametrize("kind", KINDS)
def test_every_word_can_be_asked_of_everything_of_its_kind(judged, kind):
    for name, word in words_for(kind).items():
        limit = {"quantity": _limit(word), "flag": "yes", "text": word.choices[:1] or "x"}[
            word.shape
        ]
        text = limit if isinstance(limit, str) else limit[0]
        for verdict in judged(f"{{every: {kind}, {name}: '{text}'}}").values():
            assert verdict in ("pass", "fail", "unproven")


def _limit(word: Any) -> str:
    return f">= 1 {word.unit or ('' if word.dimension == 'number' else '%')}"
