"""`fusewright check` on real files: statuses, formats, filters."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from coordination.report.schema import answer_schema

DEMOS = sorted(Path(__file__).parents[3].glob("fixtures/systems/*.yaml"))
DEMOS = [path for path in DEMOS if not path.stem.endswith(".expected")]


def answer_of(fusewright: Any, *arguments: object) -> Any:
    return json.loads(fusewright("check", *arguments, "--format", "json").out)


def test_a_clean_system_ends_with_0(fusewright: Any, systems: Any) -> None:
    done = fusewright("check", systems.good())
    assert done.status == 0, done.out
    assert done.out.startswith("PASS: 0 fail, 0 unproven, 0 waived, ")
    assert done.err == ""


def test_a_fail_ends_with_1(fusewright: Any, systems: Any) -> None:
    done = fusewright("check", systems.failing())
    assert done.status == 1
    assert "FAIL fundamentals/interrupt-rating" in done.out
    assert "main fuse" in done.out


def test_an_unproven_rule_ends_with_3(fusewright: Any, systems: Any) -> None:
    done = fusewright("check", systems.unproven())
    assert done.status == 3
    assert "UNPROVEN fundamentals/interrupt-rating" in done.out
    assert "my-fuse-150: interrupt_ratings" in " ".join(done.out.split())


def test_a_file_that_cannot_be_used_ends_with_2(fusewright: Any, systems: Any) -> None:
    path = systems.broken()
    done = fusewright("check", path)
    assert (done.status, done.out) == (2, "")
    assert f"{path}:7:18: " in done.err


def test_a_pack_that_is_not_there_ends_with_3_and_is_named(fusewright: Any, systems: Any) -> None:
    done = fusewright("check", systems.good(), "--pack", "fundamental")
    assert done.status == 3
    assert "'fundamental'" in done.out
    assert "; did you mean 'fundamentals'?" in " ".join(done.out.split())


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_every_demo_gives_an_answer_that_fits_the_schema(fusewright: Any, path: Path) -> None:
    answer = answer_of(fusewright, path)
    schema = answer_schema()
    for definition in schema["$defs"].values():
        if "properties" in definition:
            definition["additionalProperties"] = False
    jsonschema.validate(answer, schema)
    counted = dict.fromkeys(answer["counts"], 0)
    for finding in answer["findings"]:
        counted[finding["verdict"]] += 1
        assert finding["line"] > 0
        assert finding["condition"] in answer["conditions"]
    assert counted == answer["counts"]
    assert sum(counted.values()) > 50


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
@pytest.mark.parametrize("extra", [(), ("--all",)], ids=["table", "all"])
def test_every_demo_is_readable_at_80_columns(
    fusewright: Any, path: Path, extra: tuple[str, ...]
) -> None:
    done = fusewright("check", path, *extra)
    assert "\x1b" not in done.out
    assert max(map(len, done.out.splitlines())) <= 80


def test_text_and_answer_say_the_same(fusewright: Any, systems: Any) -> None:
    path = systems.failing()
    answer = answer_of(fusewright, path)
    text = " ".join(fusewright("check", path, "--width", "300").out.split())
    fails = [finding for finding in answer["findings"] if finding["verdict"] == "fail"]
    assert fails
    for finding in fails:
        assert finding["because"] in text
        assert f"{path.name}:{finding['line']}" in text


def test_only_shows_less_and_judges_the_same(fusewright: Any, systems: Any) -> None:
    path = systems.failing()
    whole, part = answer_of(fusewright, path), answer_of(fusewright, path, "--only", "fail")
    assert {finding["verdict"] for finding in part["findings"]} == {"fail"}
    assert part["counts"] == whole["counts"]
    assert fusewright("check", path, "--only", "pass").status == 1


def test_rule_and_condition_narrow_the_run_and_say_so(fusewright: Any, systems: Any) -> None:
    done = fusewright(
        "check", systems.failing(), "--rule", "voltage-drop", "--condition", "at night"
    )
    assert done.status == 0
    assert "only rule voltage-drop was run" in done.out
    assert "only condition 'at night' was run" in done.out
    assert "interrupt-rating" not in done.out


def test_the_answer_says_that_a_run_was_restricted(fusewright: Any, systems: Any) -> None:
    part = answer_of(fusewright, systems.failing(), "--rule", "voltage-drop")
    assert (part["verdict"], part["restricted"]) == ("pass", ["only rule voltage-drop was run"])
    assert answer_of(fusewright, systems.good())["restricted"] == []


@pytest.mark.parametrize(
    ("option", "word", "near"),
    [("--rule", "interupt-rating", "interrupt-rating"), ("--condition", "at nigth", "at night")],
)
def test_a_misspelt_rule_or_condition_ends_with_2_and_a_near_miss(
    fusewright: Any, systems: Any, option: str, word: str, near: str
) -> None:
    done = fusewright("check", systems.good(), option, word)
    assert (done.status, done.out) == (2, "")
    assert f"did you mean '{near}'?" in done.err


def test_markdown_has_a_heading_a_finding_and_tables(fusewright: Any, systems: Any) -> None:
    done = fusewright("check", systems.failing(), "--format", "markdown")
    assert done.out.startswith("# FAIL: ")
    assert "### FAIL fundamentals/interrupt-rating" in done.out
    assert "| step " in done.out


def test_a_catalogue_that_is_none_ends_with_2(
    fusewright: Any, systems: Any, tmp_path: Path
) -> None:
    done = fusewright("check", systems.good(), "--catalogue", tmp_path / "none.sqlite")
    assert (done.status, done.out) == (2, "")
    assert "none.sqlite" in done.err
