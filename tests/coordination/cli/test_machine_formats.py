"""`check --format junit` and `sarif`: whole runs, by both ways in, with the exit status of text."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as Tree

import jsonschema
import pytest
import xmlschema

CHECKOUT = Path(__file__).parents[3]
SCHEMAS = CHECKOUT / "fixtures" / "schemas"
FOLDER = CHECKOUT / "fixtures" / "systems"
SYSTEMS = sorted(each for end in ("planted", "cured") for each in FOLDER.glob(f"*-{end}.yaml"))
JUNIT = xmlschema.XMLSchema(SCHEMAS / "junit-10.xsd")
SARIF = json.loads((SCHEMAS / "sarif-2.1.0.json").read_text("utf-8"))


def test_the_demo_systems_are_met() -> None:
    assert len(SYSTEMS) == 6


@pytest.mark.parametrize("path", SYSTEMS, ids=lambda path: path.stem)
def test_a_whole_run_is_valid_and_says_what_json_says(path: Path, fusewright: Any) -> None:
    answer = fusewright("check", path, "--format", "json")
    counts = json.loads(answer.out)["counts"]
    junit = fusewright("check", path, "--format", "junit")
    JUNIT.validate(junit.out)
    root = Tree.fromstring(junit.out.encode())
    assert root.get("failures") == str(counts["fail"])
    assert root.get("errors") == str(counts["unproven"])
    assert root.get("tests") == str(sum(counts.values()))
    sarif = fusewright("check", path, "--format", "sarif")
    log = json.loads(sarif.out)
    jsonschema.Draft7Validator(SARIF).validate(log)
    results = log["runs"][0]["results"]
    assert len(results) == sum(counts.values()) - counts["pass"]
    assert {answer.status, junit.status, sarif.status} == {answer.status}
    for each in results:
        line = each["locations"][0]["physicalLocation"]["region"]["startLine"]
        assert 1 <= line <= len(path.read_text("utf-8").splitlines())


@pytest.mark.parametrize("format", ["junit", "sarif"])
@pytest.mark.parametrize(("kind", "status"), [("good", 0), ("failing", 1), ("unproven", 3)])
def test_the_exit_status_is_unchanged_by_both_ways_in(
    kind: str, status: int, format: str, systems: Any, process: Any
) -> None:
    path = getattr(systems, kind)()
    for words in (("--format", format), (f"--format={format}",)):  # quick, and typer's
        done = process("check", path, *words, SOURCE_DATE_EPOCH="1772323200")
        assert (done.status, done.err) == (status, "")
        if format == "junit":
            bad = Tree.fromstring(done.out.encode())
            assert (bad.get("failures"), bad.get("errors")) == {
                0: ("0", "0"), 1: ("1", "0"), 3: ("0", "1")
            }[status]  # fmt: skip
        else:
            assert json.loads(done.out)["runs"][0]["invocations"][0]["exitCode"] == status


def test_input_that_cannot_be_used_gives_no_document(systems: Any, process: Any) -> None:
    done = process("check", systems.broken(), "--format", "junit")
    assert (done.status, done.out) == (2, "")


def test_pairs_has_no_such_format(fusewright: Any) -> None:
    ended = fusewright("pairs", SYSTEMS[0], "--format", "sarif")
    assert ended.status == 2


def test_a_terminal_without_unicode_gets_valid_xml(systems: Any, process: Any) -> None:
    done = process("check", systems.failing(), "--format", "junit", PYTHONIOENCODING="ascii")
    assert done.out.startswith('<?xml version="1.0" encoding="US-ASCII"?>')
    JUNIT.validate(done.out)
