"""Rules that no installed pack brings: named on the command line or in the user's configuration."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

SYSTEM = Path(__file__).parents[3] / "fixtures/systems/small/p02-rating-at-14-v.yaml"
RULES = """
from coordination.rules import COMMON_PRACTICE, Card, passed, rule

@rule(Card(name="is-a-fuse", title="t", why="w", wrong="w", right="r", severity="outage",
           source=COMMON_PRACTICE), each="fuse")
def is_a_fuse(fuse, study):
    return passed("it is one")
"""
HOUSE = "house_rules: T\nrules: {any-fuse: {every: fuse, rated_current: '>= 1 A'}}\n"


def check(fusewright: Any, *options: str) -> tuple[dict[str, Any], Any]:
    result = fusewright("check", str(SYSTEM), "--format", "json", *options)
    return json.loads(result.out), result


def rules_of(answer: dict[str, Any], pack: str) -> set[str]:
    return {each["rule"] for each in answer["findings"] if each["rule"].startswith(f"{pack}/")}


def test_rules_from_a_file_are_judged_like_any(fusewright, tmp_path):
    (tmp_path / "tern-yard.py").write_text(RULES)
    answer, _ = check(fusewright, "--rules-from", str(tmp_path / "tern-yard.py"))
    assert rules_of(answer, "tern_yard") == {"tern_yard/is-a-fuse"}
    assert [each["name"] for each in answer["packs"]] == ["fundamentals", "tern_yard"]
    assert [each.name for each in tmp_path.iterdir()] == ["tern-yard.py"]


def test_they_are_explained_and_listed_too(fusewright, tmp_path):
    file = tmp_path / "yard.py"
    file.write_text(RULES)
    subject = check(fusewright, "--rules-from", str(file))[0]["findings"]
    name = next(each["subject"] for each in subject if each["rule"] == "yard/is-a-fuse")
    shown = fusewright("explain", str(SYSTEM), name, "is-a-fuse", "--rules-from", str(file))
    assert "it is one" in shown.out
    assert "yard/is-a-fuse" in fusewright("rules", "--rules-from", str(file)).out


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "holds no rule"),
        ("1 / 0", "yard.py:1"),
        ("def broken(", "SyntaxError"),
        (
            RULES + "\nagain = rule(is_a_fuse.card, each='fuse')(lambda a, b: None)",
            "two rules named",
        ),
    ],
)
def test_a_file_that_cannot_be_used_makes_the_run_incomplete(fusewright, tmp_path, text, words):
    (tmp_path / "yard.py").write_text(text)
    answer, result = check(fusewright, "--rules-from", str(tmp_path / "yard.py"))
    assert any(words in problem for problem in answer["problems"]), answer["problems"]
    assert result.status in (1, 3)
    assert answer["verdict"] != "pass"
    assert rules_of(answer, "fundamentals")


@pytest.mark.parametrize("option", ["--rules-from", "--house-rules"])
def test_a_file_that_is_not_there_is_the_users_mistake(fusewright, option):
    result = fusewright("check", str(SYSTEM), option, "nowhere.yaml")
    assert result.status == 2
    assert "nowhere.yaml" in result.err


def test_a_name_that_is_taken_is_a_problem(fusewright, tmp_path):
    (tmp_path / "fundamentals.py").write_text(RULES)
    answer, _ = check(fusewright, "--rules-from", str(tmp_path / "fundamentals.py"))
    assert any("is in use already" in problem for problem in answer["problems"])


def test_the_users_own_configuration_counts(fusewright, tmp_path, monkeypatch):
    own = tmp_path / "fusewright"
    own.mkdir()
    (own / "yard.py").write_text(RULES)
    (own / "config.yaml").write_text("rules_from: [yard.py]\n")
    (own / "house_rules.yaml").write_text(HOUSE)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    answer, _ = check(fusewright)
    assert rules_of(answer, "yard") == {"yard/is-a-fuse"}
    assert rules_of(answer, "house") == {"house/any-fuse"}
    text = fusewright("check", str(SYSTEM), "--width", "400").out
    assert f"house rules from {own / 'house_rules.yaml'}" in " ".join(text.split())


def test_a_mistake_in_it_is_told_with_its_place(fusewright, tmp_path, monkeypatch):
    (tmp_path / "fusewright").mkdir()
    (tmp_path / "fusewright/config.yaml").write_text("rules_form: [yard.py]\n")
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    result = fusewright("check", str(SYSTEM))
    assert result.status == 2
    assert "config.yaml:1:1: unknown key 'rules_form'" in result.err


def test_neither_a_folder_nor_a_system_file_brings_code(fusewright, tmp_path, monkeypatch):
    """Whatever lies about, and a relative configuration folder, are not looked at."""
    trap = "raise SystemExit('this was run')\n"
    for name in ("fusewright_yard.py", "conftest.py", "rules.py", "sitecustomize.py", "yaml.py"):
        (tmp_path / name).write_text(trap)
    (tmp_path / "house_rules.yaml").write_text("not: [valid\n")
    (tmp_path / "fusewright").mkdir()
    (tmp_path / "fusewright/config.yaml").write_text("rules_from: [../rules.py]\n")
    text = SYSTEM.read_text("utf-8")
    (tmp_path / "system.yaml").write_text(text, "utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CONFIG_HOME", ".")
    monkeypatch.setenv("HOME", "/nonexistent")
    result = fusewright("check", "system.yaml")
    assert "this was run" not in result.out + result.err
    assert result.status in (0, 1, 3)
    for key in ("rules_from: [rules.py]", "house_rules: [house_rules.yaml]"):
        (tmp_path / "system.yaml").write_text(f"{text}{key}\n", "utf-8")
        refused = fusewright("check", "system.yaml")
        assert refused.status == 2
        assert "unknown key" in refused.err


def test_a_pack_that_cannot_be_had_makes_the_run_incomplete_and_says_the_way_out(fusewright):
    answer, result = check(fusewright, "--pack", "fundamentls")
    assert result.status in (1, 3)
    assert answer["verdict"] != "pass"
    (problem,) = answer["problems"]
    assert "no pack 'fundamentls' is installed" in problem
    assert "--without-pack fundamentls" in problem
    without, again = check(fusewright, "--pack", "fundamentls", "--without-pack", "fundamentls")
    assert without["problems"] == [
        "pack 'fundamentls' was left out on purpose: nothing of it was checked"
    ]
    assert again.status == (
        1 if without["counts"]["fail"] else 3 if without["counts"]["unproven"] else 0
    )


def test_a_pack_nobody_asked_for_cannot_be_left_out(fusewright):
    result = fusewright("check", str(SYSTEM), "--without-pack", "fundamentls")
    assert result.status == 2
    assert "did you mean 'fundamentals'" in result.err


def test_nothing_is_shown_by_leaving_everything_out(fusewright):
    answer, result = check(fusewright, "--without-pack", "fundamentals")
    assert answer["findings"] == []
    assert (answer["verdict"], result.status) == ("unproven", 3)


def test_the_readmes_own_examples_can_be_read(fusewright, tmp_path):
    readme = (Path(__file__).parents[3] / "README.md").read_text("utf-8")
    blocks = re.findall(r"```yaml\n(.*?)```", readme, re.DOTALL)
    (house,) = [block for block in blocks if block.startswith("house_rules:")]
    (packs,) = [block for block in blocks if block.startswith("packs:")]
    (tmp_path / "house.yaml").write_text(house, "utf-8")
    text = SYSTEM.read_text("utf-8").replace("packs:", "#packs:")
    (tmp_path / "system.yaml").write_text(text + "\n" + packs, "utf-8")
    result = fusewright(
        "check",
        tmp_path / "system.yaml",
        "--house-rules",
        tmp_path / "house.yaml",
        "--format",
        "json",
    )
    answer = json.loads(result.out)
    assert answer["problems"] == []
    assert [(each["name"], each["edition"]) for each in answer["packs"]] == [
        ("fundamentals", "first edition"),
        ("us_small_craft", "2024"),
        ("house", "1"),
    ]
    assert len(rules_of(answer, "house")) == 3
