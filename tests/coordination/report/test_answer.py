"""The machine-readable answer: its keys, its numbers, its published schema."""

from __future__ import annotations

import json
from typing import Any

import jsonschema
import pytest

from coordination.report.answer import answer
from coordination.report.schema import answer_schema
from coordination.report.view import View
from coordination.rules.problem import RunProblem
from coordination.trace import DEFINITION, given


def closed(schema: dict[str, Any]) -> dict[str, Any]:
    """The schema with no key allowed but those it names: what this version prints."""
    for definition in schema["$defs"].values():
        if "properties" in definition:
            definition["additionalProperties"] = False
    return schema


def through_json(findings: Any, **view: Any) -> Any:
    return json.loads(json.dumps(answer(findings, View(**view)), allow_nan=False))


def test_an_answer_with_every_verdict_fits_the_schema(every_verdict: Any) -> None:
    schema = closed(answer_schema())
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(through_json(every_verdict), schema)


@pytest.mark.parametrize(
    "key", ["verdict", "counts", "findings", "conditions", "problems", "packs"]
)
def test_the_schema_demands_every_key(every_verdict: Any, key: str) -> None:
    found = through_json(every_verdict)
    del found[key]
    with pytest.raises(jsonschema.ValidationError, match=f"'{key}' is a required property"):
        jsonschema.validate(found, answer_schema())


def test_keys_stand_in_the_order_of_the_design(every_verdict: Any) -> None:
    found = through_json(every_verdict)
    assert list(found) == [
        "fusewright",
        "system",
        "file",
        "verdict",
        "counts",
        "packs",
        "problems",
        "conditions",
        "findings",
        "sections",
        "restricted",
    ]
    assert list(found["counts"]) == ["pass", "fail", "unproven", "note", "waived"]
    assert list(found["findings"][0]) == [
        "rule",
        "subject",
        "condition",
        "verdict",
        "severity",
        "found",
        "required",
        "margin",
        "missing",
        "line",
        "source",
        "because",
        "steps",
        "basis",
    ]
    assert list(found["findings"][0]["steps"][0]) == [
        "quantity",
        "symbol",
        "formula",
        "with",
        "value",
        "unit",
        "source",
    ]


def test_a_fail_in_numbers(make: Any) -> None:
    found = through_json(make.findings(make.fail()))["findings"][0]
    assert found["found"] == {"value": 8500.0, "unit": "A"}
    assert found["required"] == {"relation": "<=", "value": 5000.0, "unit": "A"}
    assert found["margin"] == pytest.approx(0.588, abs=5e-4)  # 5000 / 8500
    step = next(step for step in found["steps"] if step["quantity"] == "fault current")
    assert (step["formula"], step["with"]) == ("E / R", "27.2 V / 3.20 mΩ")


def test_unknown_numbers_are_null_in_the_unit_of_the_other_side(make: Any) -> None:
    found = through_json(make.findings(make.unproven()))
    assert found["findings"][0]["required"] == {"relation": "<=", "value": None, "unit": "A"}
    assert found["findings"][0]["missing"] == ["fuse-x: interrupt_ratings at >= 28.8 V"]
    assert found["conditions"]["normal"]["points"]["pack"]["fault_min_A"] is None
    assert found["conditions"]["normal"]["points"]["pack"]["fault_max_A"] == 8500.0


def test_no_comparison_gives_null_sides(make: Any) -> None:
    found = through_json(make.findings(make.note()))["findings"][0]
    assert (found["found"], found["required"], found["margin"]) == (None, None, None)
    assert found["because"] == "start/1: cranking conductor."


def test_an_infinite_step_does_not_spoil_the_json(make: Any) -> None:
    endless = given("current", "I", float("inf"), "A", DEFINITION)
    found = through_json(make.findings(make.unproven(found=endless)))["findings"][0]
    assert found["found"]["value"] is None
    assert found["steps"][-1]["value"] is None


def test_problems_are_texts_with_the_near_miss(make: Any) -> None:
    problem = RunProblem(kind="pack", about="us", what="no pack 'us' is installed", near_miss="usa")
    found = through_json(make.findings(make.passed(), problems=(problem,)))
    assert found["problems"] == ["no pack 'us' is installed; did you mean 'usa'?"]


def test_only_shortens_the_findings_and_keeps_the_counts(every_verdict: Any) -> None:
    found = through_json(every_verdict, only=("fail",))
    assert [each["verdict"] for each in found["findings"]] == ["fail"]
    assert found["counts"]["pass"] == 1
