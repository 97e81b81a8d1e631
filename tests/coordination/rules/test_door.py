"""What a pack may bring by the door, and what the door refuses: by pack, version and line."""

from __future__ import annotations

import re
import textwrap
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from coordination.rules import API_VERSION, hooks
from coordination.rules.host import PackHost

GOOD = """
from coordination.rules import (
    API_VERSION, COMMON_PRACTICE, Card, Option, PackCard, PartField, Section, Source,
    StandardRatings, hookimpl, passed, rule,
)

def card(edition, in_force):
    return PackCard(
        name="mine", title="t", api=API_VERSION, version="1.2", edition=edition,
        in_force=in_force, scope="s", not_covered=("nothing",),
    )

CARD = Card(
    name="some-rule", title="t", why="w", wrong="w", right="r", severity="fire",
    source=COMMON_PRACTICE,
)

@rule(CARD, each="fuse")
def some_rule(fuse, study):
    return passed("it is a fuse")

@hookimpl
def fusewright_pack():
    return card("2022", "2022-01-01"), card("2026", "2026-01-01"), card("2024", "2024-01-01")

@hookimpl
def fusewright_rules(edition):
    return [some_rule] if edition != "2022" else [some_rule, old_rule]

@rule(CARD, each="fuse")
def old_rule(fuse, study):
    return passed("old")

@hookimpl
def fusewright_options():
    return OPTIONS

@hookimpl
def fusewright_part_fields():
    return FIELDS

@hookimpl
def fusewright_standard_ratings():
    return RATINGS

OPTIONS = [Option(name="afloat", shape="flag", meaning="whether it floats")]
FIELDS = [PartField(kind="battery", name="label", shape="text", meaning="what it says")]
RATINGS = [StandardRatings(name="shelf", source=COMMON_PRACTICE, ratings=(5.0, 10.0))]
"""


@pytest.fixture
def offer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Any:
    """Writes a module, its pieces changed, and gives a host of a day that offers it as `mine`."""
    monkeypatch.syspath_prepend(tmp_path)

    def make(*changes: tuple[str, str], day: date = date(2025, 6, 1)) -> PackHost:
        text = textwrap.dedent(GOOD)
        for old, new in changes:
            assert old in text
            text = text.replace(old, new)
        module = f"pack_{tmp_path.name.replace('-', '_')}"
        (tmp_path / f"{module}.py").write_text(text)
        return PackHost({"mine": (module,)}, day)

    return make


@pytest.mark.parametrize(
    ("asked", "day", "edition"),
    [
        ("mine", date(2025, 6, 1), "2024"),
        ("mine", date(2025, 12, 31), "2024"),
        ("mine", date(2026, 1, 1), "2026"),
        ("mine", date(9999, 12, 31), "2026"),
        ("mine@2026", date(2025, 6, 1), "2026"),
        ("mine@2024", date(2030, 1, 1), "2024"),
    ],
)
def test_the_pinned_edition_or_the_newest_in_force_is_loaded(offer, asked, day, edition):
    packs = offer(day=day).load([asked])
    assert packs.problems == ()
    assert packs.packs[0].card.edition == edition
    assert packs.packs[0].editions == ("2022", "2024", "2026")


@pytest.mark.parametrize(
    ("asked", "day", "words", "near"),
    [
        (
            "mine@2027",
            date(2025, 6, 1),
            "no edition '2027'; there are 2022, 2024, 2026",
            "mine@202",
        ),
        ("mine@", date(2025, 6, 1), "no edition ''", ""),
        ("mine", date(2021, 6, 1), "no edition is in force on 2021-06-01", "mine@2022"),
    ],
)
def test_an_edition_that_cannot_be_had_is_a_problem(offer, asked, day, words, near):
    packs = offer(day=day).load([asked])
    assert packs.packs == ()
    assert words in packs.problems[0].what
    assert packs.problems[0].near_miss.startswith(near)


def test_two_editions_in_one_run_are_a_problem(offer):
    packs = offer().load(["mine@2024", "mine@2026"])
    assert [pack.card.edition for pack in packs.packs] == ["2024"]
    assert "two editions, '2024' and '2026'" in packs.problems[0].what


REFUSED = [
    (
        ("def fusewright_rules(", "def fusewright_rulez("),
        "no hook fusewright_rulez",
        "fusewright_rules",
    ),
    (("fusewright_rules(edition)", "fusewright_rules(edition, year)"), "argument 'year'", ""),
    (
        ("fusewright_rules(edition)", "fusewright_rules(edtion)"),
        "it may ask for edition",
        "edition",
    ),
    (("fusewright_options()", "fusewright_options(edition)"), "it may ask for none", ""),
    (('edition != "2022"', "False"), "two rules named 'some-rule'", ""),
    (("def some_rule(fuse, study)", "def some_rule(fuse)"), "function of (subject, study)", ""),
    (('severity="fire"', 'severity="bad"'), "no severity 'bad': there are fire", ""),
    (('name="some-rule"', 'name="scope"'), "kept for the pack's scope", ""),
    (('shape="flag"', 'shape="bool"'), "no shape 'bool': there are flag", ""),
    (('shape="flag"', 'shape="choice"'), "a choice without choices", ""),
    (('shape="flag"', 'shape="quantity", dimension="weight"'), "no dimension 'weight'", ""),
    (('name="afloat"', 'name="a float"'), "not words_with_underscores", ""),
    (("OPTIONS = [", "OPTIONS = 2 * ["), "two options named 'afloat'", ""),
    (('kind="battery"', 'kind="batery"'), "no kind of part 'batery'", ""),
    (("(5.0, 10.0)", "(10.0, 5.0)"), "do not rise", ""),
    (("return OPTIONS", "return 5"), "hook fusewright_options gives 5, not a sequence", ""),
    (("return OPTIONS", "return ['afloat']"), "an option that is no Option: 'afloat'", ""),
    (
        ('card("2024", "2024-01-01")', 'card("2026", "2024-01-01")'),
        "two cards of edition '2026'",
        "",
    ),
    (('"2024-01-01"', '"January 2024"'), "'January 2024' is no date", ""),
]


@pytest.mark.parametrize(("change", "words", "near"), REFUSED)
def test_what_is_wrong_is_refused_by_name_and_version(offer, change, words, near):
    (problem,) = offer(change).load(["mine"]).problems
    assert problem.what.startswith("pack 'mine' 1.2")
    assert words in problem.what
    assert problem.near_miss == near


@pytest.mark.parametrize(
    ("change", "line"),
    [
        (
            ("def fusewright_rules(edition)", "def fusewright_rulez(edition)"),
            "@hookimpl\ndef fusewright_rulez",
        ),
        (("fusewright_options()", "fusewright_options(x)"), "@hookimpl\ndef fusewright_options"),
        (
            ("def some_rule(fuse, study)", "def some_rule(fuse)"),
            '@rule(CARD, each="fuse")\ndef some_rule',
        ),
        (("api=API_VERSION", "api=99"), "@hookimpl\ndef fusewright_pack"),
    ],
)
def test_the_refusal_names_file_and_line(offer, tmp_path, change, line):
    (problem,) = offer(change).load(["mine"]).problems
    (file,) = tmp_path.glob("*.py")
    text = file.read_text()
    number = text[: text.index(line)].count("\n") + 1
    assert f"({file}:{number})" in problem.what


def test_an_incompatible_api_is_told_before_its_unknown_hooks(offer):
    host = offer(("api=API_VERSION", "api=2"), ("def fusewright_rules(", "def fusewright_wonders("))
    (problem,) = host.load(["mine"]).problems
    assert (
        "was written for version 2 of the pack door, this Fusewright has version 1" in problem.what
    )


def test_the_api_version_is_stated():
    assert API_VERSION == 1
    described = Path(hooks.__file__).parents[2] / "DEVELOPERS.md"
    assert re.search(rf"`API_VERSION` is {API_VERSION}\b", described.read_text("utf-8"))


def test_a_pack_that_prints_while_it_is_loaded_is_refused(offer, capsys):
    (problem,) = offer(("OPTIONS = [", "print('hello')\nOPTIONS = [")).load(["mine"]).problems
    assert "printed 'hello" in problem.what
    assert capsys.readouterr().out == ""


def test_a_pack_that_never_finishes_loading_is_refused(offer, monkeypatch):
    monkeypatch.setattr("coordination.rules.loading.LIMIT", 0.3)
    (problem,) = offer(("return OPTIONS", "while True: pass")).load(["mine"]).problems
    assert "took longer than 0.3 s" in problem.what


def test_a_crash_while_loading_names_the_line(offer, tmp_path):
    (problem,) = offer(("OPTIONS = [", "1 / 0\nOPTIONS = [")).load(["mine"]).problems
    (file,) = tmp_path.glob("*.py")
    line = file.read_text().splitlines().index("1 / 0") + 1
    assert f"{file}:{line}" in problem.what


def test_a_rule_rests_on_what_its_pack_says_unless_it_says_so_itself(offer):
    law = offer(('scope="s"', 'scope="s", status="law"')).load(["mine"]).packs[0]
    assert [rule.card.basis for rule in law.rules] == ["law"]


def test_a_rule_may_say_so_itself(offer):
    changes = [
        ('scope="s"', 'scope="s", status="law"'),
        ('severity="fire"', 'severity="fire", basis="physics"'),
    ]
    assert offer(*changes).load(["mine"]).packs[0].rules[0].card.basis == "physics"
