"""JUnit and SARIF: valid by their published schemas, and never greener than the exit status."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as Tree

import jsonschema
import pytest
import xmlschema

from coordination.report.junit import junit_report
from coordination.report.sarif import LEVELS, sarif_report, uri_of
from coordination.report.view import View
from coordination.rules.problem import RunProblem

SCHEMAS = Path(__file__).parents[3] / "fixtures" / "schemas"
JUNIT = xmlschema.XMLSchema(SCHEMAS / "junit-10.xsd")
SARIF = json.loads((SCHEMAS / "sarif-2.1.0.json").read_text("utf-8"))
MADE = date(2026, 3, 5)


def junit(findings: Any, view: View | None = None) -> Tree.Element:
    text = junit_report(findings, view or View(), MADE)
    JUNIT.validate(text)
    return Tree.fromstring(text.encode())


def sarif(findings: Any, view: View | None = None) -> Any:
    log = json.loads(json.dumps(sarif_report(findings, view or View()), allow_nan=False))
    jsonschema.Draft7Validator(SARIF).validate(log)
    return log["runs"][0]


def case(root: Tree.Element, subject: str) -> Tree.Element:
    (found,) = (each for each in root.iter("testcase") if each.get("name") == subject)
    return found


def result(run: Any, subject: str) -> Any:
    (found,) = (
        each
        for each in run["results"]
        if each["locations"][0]["logicalLocations"][0]["name"] == subject
    )
    return found


def test_the_schemas_would_notice() -> None:
    """A schema copy that accepts anything would prove nothing."""
    with pytest.raises(xmlschema.XMLSchemaValidationError):
        JUNIT.validate("<testsuites><testcase/></testsuites>")
    log = {"version": "2.1.0", "runs": [{"tool": {"driver": {"name": "x"}}, "results": [{}]}]}
    with pytest.raises(jsonschema.ValidationError, match="'message' is a required property"):
        jsonschema.Draft7Validator(SARIF).validate(log)


def test_each_verdict_is_its_own_kind_of_case(every_verdict: Any) -> None:
    root = junit(every_verdict)
    failure = case(root, "port feed/1").find("failure")
    assert failure is not None
    assert failure.get("type") == "fire"
    # 27.2 V / 3.20 mΩ = 8.50 kA against 5 kA
    told = "8.50 kA, more than the interrupt rating at 32 V of 5.00 kA"
    assert told in failure.get("message", "")
    assert "tender.yaml:31" in (failure.text or "")
    error = case(root, "aux/1").find("error")
    assert error is not None
    assert error.get("type") == "unproven"
    assert "fuse-x: interrupt_ratings at >= 28.8 V" in error.get("message", "")
    assert [each.tag for each in case(root, "main feed/1")] == []
    note, waived = (case(root, name).find("skipped") for name in ("start/1", "old/1"))
    assert note is not None
    assert (note.get("type"), note.get("message")) == ("note", "start/1: cranking conductor.")
    assert waived is not None
    assert waived.get("type") == "waived"
    told = "Accepted by yard foreman on 2026-03-02: replaced next month."
    assert told in waived.get("message", "")


def test_junit_counts_what_it_holds(every_verdict: Any) -> None:
    root = junit(every_verdict)
    counts = [root.get(name) for name in ("tests", "failures", "errors")]
    assert counts == ["5", "1", "1"]
    suite = next(each for each in root if each.get("name") == "fundamentals")
    assert [suite.get(name) for name in ("tests", "failures", "errors", "skipped")] == list("5112")
    assert suite.get("timestamp") == "2026-03-05T00:00:00"
    # The older schema of the Ant task wants this order, and both at the end.
    assert [each.tag for each in (suite[0], *suite[-2:])] == [
        "properties", "system-out", "system-err"
    ]  # fmt: skip


def test_each_verdict_is_its_own_kind_of_result(every_verdict: Any) -> None:
    run = sarif(every_verdict)
    fail = result(run, "port feed/1")
    assert (fail["kind"], fail["level"], fail["ruleId"]) == (
        "fail", "error", "fundamentals/interrupt-rating"
    )  # fmt: skip
    place = fail["locations"][0]["physicalLocation"]
    assert place == {"artifactLocation": {"uri": "tender.yaml"}, "region": {"startLine": 31}}
    assert run["tool"]["driver"]["rules"][fail["ruleIndex"]]["id"] == fail["ruleId"]
    unproven = result(run, "aux/1")
    assert (unproven["kind"], unproven["level"]) == ("fail", "warning")
    assert unproven["properties"]["verdict"] == "unproven"
    assert "unproven, because this is not known: fuse-x" in unproven["message"]["text"]
    note = result(run, "start/1")
    assert (note["kind"], note["level"]) == ("informational", "none")
    waived = result(run, "old/1")
    assert (waived["kind"], waived["level"]) == ("fail", "error")
    (suppression,) = waived["suppressions"]
    assert (suppression["kind"], suppression["status"]) == ("inSource", "accepted")
    assert suppression["justification"] == "replaced next month (yard foreman, 2026-03-02)"
    assert suppression["location"]["physicalLocation"]["region"] == {"startLine": 60}
    assert "suppressions" not in fail
    assert run["properties"]["counts"] == {
        "pass": 1, "fail": 1, "unproven": 1, "note": 1, "waived": 1
    }  # fmt: skip
    assert run["invocations"] == [
        {"executionSuccessful": True, "exitCode": 1, "toolExecutionNotifications": []}
    ]


def test_passes_are_results_only_where_they_are_asked_for(every_verdict: Any) -> None:
    subjects = [
        [each["properties"]["verdict"] for each in sarif(every_verdict, view)["results"]]
        for view in (View(), View(full=True), View(only=("pass",)))
    ]
    assert subjects[0] == ["fail", "unproven", "note", "waived"]
    assert subjects[1] == ["fail", "pass", "unproven", "note", "waived"]
    # Fails and unproven findings are never hidden.
    assert subjects[2] == ["fail", "pass", "unproven"]


def test_a_view_cannot_turn_junit_green(every_verdict: Any) -> None:
    root = junit(every_verdict, View(only=("pass",), restricted=("only rule x was run",)))
    assert (root.get("failures"), root.get("errors"), root.get("tests")) == ("1", "1", "3")
    held = [each.attrib for each in root.iter("property")]
    assert {"name": "restricted", "value": "only rule x was run"} in held


def test_what_left_something_unchecked_is_an_error_in_both(make: Any) -> None:
    problem = RunProblem(kind="pack", what="pack 'us' could not be loaded", about="us")
    remark = RunProblem(kind="waiver", what="a waiver matches nothing", line=9, incomplete=False)
    findings = make.findings(make.passed(), problems=(problem, remark), verdict="unproven")
    root = junit(findings)
    assert (root.get("failures"), root.get("errors")) == ("0", "1")
    (error,) = root.iter("error")
    assert error.attrib == {"type": "incomplete", "message": "pack 'us' could not be loaded"}
    out = "".join(each.text or "" for each in root.iter("system-out"))
    assert "Remark: tender.yaml:9: a waiver matches nothing" in out
    assert "Not checked: surges" in out
    (invocation,) = sarif(findings)["invocations"]
    assert (invocation["executionSuccessful"], invocation["exitCode"]) == (False, 3)
    told = invocation["toolExecutionNotifications"]
    assert [each["level"] for each in told] == ["error", "note"]


def test_a_run_without_findings_is_not_green(make: Any) -> None:
    root = junit(make.findings())
    (error,) = root.iter("error")
    assert error.get("message") == "nothing was checked"
    assert root.get("errors") == "1"


EVIL = "]]><script>\"'&\x1b[31m\u202e\ud800{0}[x](http://evil)"


def test_names_that_mean_harm_come_out_as_text(make: Any) -> None:
    fail = make.fail(subject=EVIL, reason=EVIL, condition=EVIL)
    findings = make.findings(fail, system=make.system(name=EVIL, file="a b/%#.yaml"))
    text = junit_report(findings, View(), MADE)
    JUNIT.validate(text)
    assert "<script>" not in text
    assert "\x1b" not in text
    shown = "]]><script>\"'&\\x1b[31m\\u202e\\ud800{0}[x](http://evil)"
    assert case(Tree.fromstring(text.encode()), shown).find("failure") is not None
    run = sarif(findings)
    (found,) = run["results"]
    message = found["message"]["text"]
    assert "](http" not in message  # no link of SARIF's
    assert "{{0}}" in message  # no placeholder
    uri = found["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
    assert uri == "a%20b/%25%23.yaml"


def test_without_unicode_xml_has_references(every_verdict: Any) -> None:
    text = junit_report(every_verdict, View(), MADE, ascii_only=True)
    assert text.startswith('<?xml version="1.0" encoding="US-ASCII"?>\n')
    assert text.isascii()
    assert Tree.tostring(Tree.fromstring(text)) == Tree.tostring(junit(every_verdict))


@pytest.mark.parametrize(
    ("path", "uri"),
    [
        ("boats/tender.yaml", "boats/tender.yaml"),
        ("/srv/my boat.yaml", "file:///srv/my%20boat.yaml"),
        ("c:x.yaml", "c%3Ax.yaml"),  # no scheme
        ("ö.yaml", "%C3%B6.yaml"),
    ],
)
def test_paths_are_uris(path: str, uri: str) -> None:
    assert uri_of(path) == uri


def test_every_severity_has_a_level_that_shows() -> None:
    assert set(LEVELS) == {"fire", "damage", "outage", "paperwork"}
    assert "none" not in LEVELS.values()


def test_a_result_keeps_its_fingerprint_when_its_line_moves(make: Any) -> None:
    prints = [
        sarif(make.findings(make.fail(line=line)))["results"][0]["partialFingerprints"]
        for line in (31, 90)
    ]
    assert prints[0] == prints[1]
    other = sarif(make.findings(make.fail(subject="b")))["results"][0]["partialFingerprints"]
    assert other != prints[0]
