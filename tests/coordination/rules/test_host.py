"""Packs are loaded one at a time by name, and none goes missing without being named."""

from __future__ import annotations

import subprocess
import sys
import textwrap
from pathlib import Path

import pytest

from coordination.rules import entry
from coordination.rules.host import PackHost

GOOD = """
from coordination.rules import API_VERSION, COMMON_PRACTICE, Card, PackCard, hookimpl, passed, rule

PACK = PackCard(
    name="{pack}", title="t", api=API_VERSION, version="1", edition="e", in_force="2026-01-01",
    scope="s", not_covered=("nothing",),
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
    return PACK

@hookimpl
def fusewright_rules():
    return RULES

RULES = [some_rule]
"""


@pytest.fixture
def offer(tmp_path, monkeypatch):
    """Writes a module and gives a host that offers it as pack `mine`."""
    monkeypatch.syspath_prepend(tmp_path)

    def make(text: str, name: str = "mine") -> PackHost:
        module = f"pack_{tmp_path.name.replace('-', '_')}"
        (tmp_path / f"{module}.py").write_text(textwrap.dedent(text))
        return PackHost({name: (module,)})

    return make


def problem_of(host: PackHost, name: str = "mine") -> str:
    packs = host.load([name])
    assert packs.packs == ()
    (problem,) = packs.problems
    assert problem.incomplete
    assert problem.kind == "pack"
    assert problem.about == name
    return problem.what


def test_good_pack_is_loaded_with_its_rules(offer):
    packs = offer(GOOD.format(pack="mine")).load(["mine"])
    assert packs.problems == ()
    assert packs.rule_names() == ("mine/some-rule",)


def test_the_built_in_pack_comes_by_the_same_door():
    packs = PackHost().load(["fundamentals"])
    assert packs.problems == ()
    assert "fundamentals/interrupt-rating" in packs.rule_names()


def test_an_unknown_name_is_a_problem_with_a_near_miss():
    (problem,) = PackHost().load(["fundamentls"]).problems
    assert problem.near_miss == "fundamentals"
    assert "fundamentls" in problem.what


def test_the_others_still_load_beside_one_that_cannot():
    packs = PackHost().load(["no-such-pack", "fundamentals"])
    assert [pack.card.name for pack in packs.packs] == ["fundamentals"]
    assert [problem.about for problem in packs.problems] == ["no-such-pack"]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (("@hookimpl\ndef fusewright_pack", "@hookimpl\ndef fusewright_pak"), "fusewright_pak"),
        (("@hookimpl\ndef fusewright_pack", "def fusewright_pack"), "lacks its mark @hookimpl"),
        (("RULES = [some_rule]", "RULES = [some_rule, some_rule]"), "two rules named 'some-rule'"),
        (("RULES = [some_rule]", "RULES = []"), "neither a rule nor"),
        (("RULES = [some_rule]", "RULES = [some_rule.judge]"), "no Rule"),
        (("RULES = [some_rule]", "raise SystemExit('bye')"), "SystemExit: bye"),
        (("RULES = [some_rule]", "1 / 0"), "ZeroDivisionError"),
        (("import API", "import NOTHING, API"), "ImportError"),
        (("api=API_VERSION", "api=99"), "version 99"),
        (('why="w"', 'why=""'), "leaves empty on its card: why"),
        (('scope="s"', 'scope=""'), "leaves empty: scope"),
        (('name="some-rule"', 'name="Some rule"'), "not words-with-hyphens"),
        (('name="mine"', 'name="yours"'), "calls itself 'yours'"),
        (("def fusewright_rules()", "def fusewright_rules(rules)"), "rules"),
    ],
)
def test_a_pack_that_cannot_be_used_is_a_problem(offer, change, words):
    text = GOOD.format(pack="mine")
    assert change[0] in text
    assert words in problem_of(offer(text.replace(*change)))


def test_a_module_that_is_not_there_is_a_problem():
    assert "ModuleNotFoundError" in problem_of(PackHost({"mine": ("no_such_module",)}))


def test_two_packs_of_one_name_are_a_problem():
    assert "several" in problem_of(PackHost({"mine": ("one", "other")}))


def test_only_the_packs_asked_for_are_imported():
    code = (
        "import sys\n"
        "from coordination.rules.host import PackHost\n"
        "PackHost().load([])\n"
        "assert 'fusewright_fundamentals' not in sys.modules\n"
        "PackHost().load(['fundamentals'])\n"
        "assert 'fusewright_fundamentals.pack' in sys.modules\n"
        "assert 'importlib.metadata' not in sys.modules\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_entry_points_are_found_as_the_standard_library_finds_them():
    assert entry.installed("fusewright.packs") == entry.all_installed("fusewright.packs")
    assert dict(entry.installed("console_scripts")) == dict(entry.all_installed("console_scripts"))


def test_entry_points_of_a_distribution_are_read_once(tmp_path: Path, monkeypatch):
    for folder, value in (("first", "one"), ("second", "other")):
        info = tmp_path / folder / "my_yard-1.0.dist-info"
        info.mkdir(parents=True)
        text = f"[console_scripts]\nx = a:b\n\n[fusewright.packs]\n# remark\nmyyard = {value}\n"
        (info / "entry_points.txt").write_text(text)
    monkeypatch.setattr(sys, "path", [str(tmp_path / "first"), str(tmp_path / "second"), "nowhere"])
    assert entry.installed("fusewright.packs") == {"myyard": ("one",)}
