"""explain, faults, rules, new, schema, version, help."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

import coordination


def test_explain_prints_the_tree_of_a_pass(fusewright: Any, systems: Any) -> None:
    done = fusewright("explain", systems.good(), "main fuse", "interrupt-rating")
    assert done.status == 0
    assert done.out.startswith("PASS fundamentals/interrupt-rating")
    assert "interrupt_ratings" in done.out
    assert "= 20 kA" in done.out
    assert any(line.startswith("    | | ") for line in done.out.splitlines())
    assert max(map(len, done.out.splitlines())) <= 80


def test_explain_without_a_rule_prints_every_verdict_on_the_subject(
    fusewright: Any, systems: Any
) -> None:
    done = fusewright("explain", systems.failing(), "main fuse")
    assert "FAIL fundamentals/interrupt-rating" in done.out
    assert "PASS fundamentals/dc-voltage-rating" in done.out


@pytest.mark.parametrize(
    ("subject", "rule", "near"),
    [
        ("main fues", "interrupt-rating", "main fuse"),
        ("main fuse", "interrupt-ratings", "interrupt-rating"),
    ],
)
def test_explain_knows_near_misses(
    fusewright: Any, systems: Any, subject: str, rule: str, near: str
) -> None:
    done = fusewright("explain", systems.good(), subject, rule)
    assert (done.status, done.out) == (2, "")
    assert f"did you mean '{near}'?" in done.err


def test_explain_says_when_a_rule_does_not_concern_the_subject(
    fusewright: Any, systems: Any
) -> None:
    done = fusewright("explain", systems.good(), "main fuse", "battery-discharge")
    assert (done.status, done.out) == (2, "")
    assert "does not concern 'main fuse'" in done.err


def test_the_fault_table_and_the_answer_have_the_same_numbers(
    fusewright: Any, systems: Any
) -> None:
    from catalogue.quantities import show

    path = systems.good()
    answer = json.loads(fusewright("check", path, "--format", "json").out)
    table = fusewright("faults", path).out
    assert list(answer["conditions"]) == ["normal", "at night"]
    parts = table.split("Condition ")[1:]
    for part, (name, condition) in zip(parts, answer["conditions"].items(), strict=True):
        assert part.startswith(name)
        rows = {line.split("  ")[0]: line for line in part.splitlines()}
        for point, numbers in condition["points"].items():
            assert show(numbers["fault_max_A"], "A") in rows[point]
            assert show(numbers["fault_min_A"], "A") in rows[point]
        fuse = condition["elements"]["main fuse"]
        assert show(fuse["duty_A"], "A") in rows["main fuse"]
    assert max(map(len, table.splitlines())) <= 80


def test_rules_lists_every_rule_once_and_a_card_in_full(fusewright: Any) -> None:
    index = fusewright("rules")
    assert index.status == 0
    assert index.out.count("fundamentals/interrupt-rating") == 1
    card = fusewright("rules", "interrupt-rating").out
    for label in ("why", "wrong", "right", "severity", "source"):
        assert f"\n  {label}" in card
    assert fusewright("rules", "fundamentals/interrupt-rating").out == card
    assert "not covered" in fusewright("rules", "fundamentals").out


def test_rules_knows_near_misses(fusewright: Any) -> None:
    done = fusewright("rules", "interupt-rating")
    assert (done.status, done.out) == (2, "")
    assert "did you mean 'interrupt-rating'?" in done.err


def test_new_writes_a_system_that_checks_clean(fusewright: Any, tmp_path: Path) -> None:
    path = tmp_path / "mine.yaml"
    assert fusewright("new", path).status == 0
    assert path.read_text(encoding="utf-8").startswith("#")
    assert fusewright("check", path).status == 0


def test_new_never_overwrites(fusewright: Any, tmp_path: Path) -> None:
    path = tmp_path / "mine.yaml"
    path.write_text("precious", encoding="utf-8")
    done = fusewright("new", path)
    assert (done.status, done.out) == (2, "")
    assert "already" in done.err
    assert path.read_text(encoding="utf-8") == "precious"


@pytest.mark.parametrize(
    "of",
    ["system", "answer", "seal", "margins", "suggest", "comparison", "measured", "parts", "uses",
     "doubts", "import", "recheck"],
)  # fmt: skip
def test_schemas_are_schemas(fusewright: Any, of: str) -> None:
    done = fusewright("schema", of)
    assert done.status == 0
    schema = json.loads(done.out)
    jsonschema.Draft202012Validator.check_schema(schema)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({"nothing": 1}, schema)


def test_the_version_is_the_packages(fusewright: Any) -> None:
    assert fusewright("--version").out == f"fusewright {coordination.__version__}\n"


def test_help_names_every_command(fusewright: Any) -> None:
    text = fusewright("--help").out
    listed = "check explain margins suggest compare faults rules new schema parts"
    for command in listed.split():
        assert f"\n  {command} " in text


@pytest.mark.parametrize(
    "arguments",
    [
        (),
        ("check",),
        ("chek",),
        ("check", "a", "b"),
        ("check", "a", "--format", "pdf"),
        ("--nope",),
    ],
)
def test_missing_or_wrong_arguments_end_with_2(fusewright: Any, arguments: tuple[str, ...]) -> None:
    assert fusewright(*arguments).status == 2
