"""A run's answer as SARIF 2.1.0 (OASIS, 2020): a result for each finding, at its line.

Viewers hide whatever is no "fail", so an unproven finding is one too, of level "warning", and its
text and its property `verdict` say that it is unproven. A waived fail is suppressed in source, with
the reason. Notes are informational; passes are written only where they are asked for. Fails and
unproven findings are written whatever a view shows.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterable
from hashlib import sha256
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from coordination import __version__
from coordination.report.block import block
from coordination.report.junit import written_always
from coordination.report.limits import cautions, not_checked
from coordination.report.sentence import because
from coordination.report.summary import headline, problem_line
from coordination.report.wording import clean, source_words

if TYPE_CHECKING:
    from coordination.report.view import View
    from coordination.rules.finding import Finding, Findings
    from coordination.rules.problem import RunProblem

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"

#: Severity of a fail to SARIF's level.
LEVELS = {"fire": "error", "damage": "error", "outage": "warning", "paperwork": "note"}
_KINDS = {"fail": "fail", "waived": "fail", "unproven": "fail"}
_QUIET = {"note": "informational", "pass": "pass"}


def sarif_report(findings: Findings, view: View) -> dict[str, Any]:
    """The log as plain dictionaries and lists."""
    return {"$schema": SCHEMA, "version": "2.1.0", "runs": [_run(findings, view)]}


def _run(findings: Findings, view: View) -> dict[str, Any]:
    shown = [one for one in findings.findings if _wanted(one, view)]
    ids = list(dict.fromkeys(one.rule for one in shown))
    cards = {one.rule: one for one in shown}
    return {
        "tool": {
            "driver": {
                "name": "fusewright",
                "version": __version__,
                "rules": [_rule(cards[name]) for name in ids],
            }
        },
        "invocations": [_invocation(findings)],
        "columnKind": "unicodeCodePoints",
        "results": [_result(one, findings, ids.index(one.rule)) for one in shown],
        "properties": {
            "system": clean(findings.system.name),
            "verdict": findings.verdict,
            "headline": headline(findings),
            "counts": dict(findings.counts),
            "conditions": [clean(name) for name in findings.studies],
            "packs": [
                {"name": pack.card.name, "version": pack.card.version, "edition": pack.card.edition}
                for pack in findings.packs
            ],
            "restricted": [clean(text) for text in view.restricted],
            "notChecked": list(not_checked(findings)),
            "cautions": list(cautions(findings)),
        },
    }


def _wanted(finding: Finding, view: View) -> bool:
    if finding.verdict == "pass" and not (view.full or "pass" in view.only):
        return False
    return written_always(finding, view)


def _rule(finding: Finding) -> dict[str, Any]:
    card = finding.card
    return {
        "id": clean(finding.rule),
        "name": clean(card.name),
        "shortDescription": {"text": clean(card.title)},
        "fullDescription": {"text": clean(card.why)},
        "help": {"text": clean(f"Do: {card.right} Source: {source_words(card.source)}.")},
        "defaultConfiguration": {"level": LEVELS[card.severity]},
        "properties": {"severity": card.severity, "wrong": clean(card.wrong)},
    }


def _result(finding: Finding, findings: Findings, rule: int) -> dict[str, Any]:
    kind = _KINDS.get(finding.verdict) or _QUIET[finding.verdict]
    shown = block(finding, findings.file)
    result: dict[str, Any] = {
        "ruleId": clean(finding.rule),
        "ruleIndex": rule,
        "kind": kind,
        "level": _level(finding) if kind == "fail" else "none",
        "message": {"text": _plain(f"{because(finding)} (condition {clean(finding.condition)})")},
        "locations": [_location(finding, findings.file)],
        "partialFingerprints": {"ruleAndSubject/v1": _fingerprint(finding)},
        "properties": {
            "verdict": finding.verdict,
            "severity": finding.severity,
            "condition": clean(finding.condition),
            "found": shown.found,
            "required": shown.required,
            "margin": finding.margin,
            "missing": list(shown.missing),
            "cure": shown.cure,
            "source": shown.source,
        },
    }
    if finding.waiver is not None:
        result["suppressions"] = [_suppression(finding, findings.file)]
    return result


def _level(finding: Finding) -> str:
    return "warning" if finding.verdict == "unproven" else LEVELS[finding.severity]


def _location(finding: Finding, file: str) -> dict[str, Any]:
    return {
        "physicalLocation": _at(file, finding.line),
        "logicalLocations": [
            {"name": clean(finding.subject), "kind": clean(finding.kind or "system")}
        ],
    }


def _at(file: str, line: int) -> dict[str, Any]:
    place: dict[str, Any] = {"artifactLocation": {"uri": uri_of(file)}}
    if line > 0:
        place["region"] = {"startLine": line}
    return place


def uri_of(file: str) -> str:
    """A path as a URI reference, its blanks and signs escaped; relative ones stay relative."""
    path = file.replace(os.sep, "/")
    text = quote(os.fsencode(path), safe="/")
    return f"file://{text}" if path.startswith("/") else text


def _suppression(finding: Finding, file: str) -> dict[str, Any]:
    assert finding.waiver is not None
    waiver = finding.waiver
    return {
        "kind": "inSource",
        "status": "accepted",
        "justification": clean(f"{waiver.reason} ({waiver.by}, {waiver.date.isoformat()})"),
        "location": {"physicalLocation": _at(file, waiver.line)},
    }


def _plain(text: str) -> str:
    """A message in which no name makes a link or a placeholder (SARIF 2.1.0, 3.11.5, 3.11.6)."""
    return _PLACEHOLDER.sub(r"{{\1}}", text).replace("](", "] (")


_PLACEHOLDER = re.compile(r"\{([0-9]+)\}")


def _fingerprint(finding: Finding) -> str:
    """The same for a rule and a subject in every run, wherever its line has gone."""
    key = f"{finding.rule}\0{finding.subject}".encode("utf-8", "surrogatepass")
    return sha256(key).hexdigest()[:32]


def _invocation(findings: Findings) -> dict[str, Any]:
    """How the run ended, and what kept it from checking everything."""
    incomplete = any(problem.incomplete for problem in findings.problems)
    return {
        "executionSuccessful": not incomplete,
        "exitCode": findings.exit_status,
        "toolExecutionNotifications": list(_notifications(findings.problems, findings.file)),
    }


def _notifications(problems: Iterable[RunProblem], file: str) -> Iterable[dict[str, Any]]:
    for problem in problems:
        yield {
            "level": "error" if problem.incomplete else "note",
            "message": {"text": _plain(problem_line(problem, file))},
            "locations": [{"physicalLocation": _at(file, problem.line)}],
        }
