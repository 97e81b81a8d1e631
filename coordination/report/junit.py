"""A run's answer as JUnit XML: a suite for each pack, a case for each rule and subject.

A fail is a failure, its type the severity. Unproven is an error of type "unproven", never a pass.
Notes and waivers are skipped cases that say why. Fails, unproven findings and problems are always
written, whatever a view shows: the file must not be greener than the exit status.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING
from xml.etree import ElementTree as Tree

from coordination import __version__
from coordination.report.block import block
from coordination.report.limits import cautions, not_checked
from coordination.report.sentence import because
from coordination.report.summary import basis, conclusion, headline, problem_line
from coordination.report.text import block_lines
from coordination.report.wording import clean

if TYPE_CHECKING:
    from datetime import date

    from coordination.report.view import View
    from coordination.rules.finding import Finding, Findings

#: Columns of the text inside a case.
_WIDTH = 100

#: The suite of what concerns the run as a whole; no pack can have a blank in its name.
_RUN = "the run"


def junit_report(findings: Findings, view: View, made: date, *, ascii_only: bool = False) -> str:
    """The XML document, ending in a newline; `ascii_only` writes other signs as references."""
    root = Tree.Element("testsuites", {"name": f"fusewright: {clean(findings.system.name)}"})
    for number, (name, group) in enumerate(_by_pack(findings, view).items()):
        suite = _suite(root, name, number, made)
        _properties(suite, findings, view)
        for finding in group:
            _case(suite, finding, findings.file)
        if name == _RUN:
            _problems(suite, findings)
        _close(suite, findings if name == _RUN else None)
    _count(root, root.iter("testcase"))
    Tree.indent(root)
    # Never with a declaration of its own: which one it makes depends on the encoding.
    text = Tree.tostring(root, encoding="unicode")
    name = "US-ASCII" if ascii_only else "UTF-8"
    if ascii_only:
        text = text.encode("ascii", "xmlcharrefreplace").decode("ascii")
    return f'<?xml version="1.0" encoding="{name}"?>\n{text}\n'


def written_always(finding: Finding, view: View) -> bool:
    """Whether a finding belongs into a file for machines: what is not shown to hold always does."""
    return finding.verdict in ("fail", "unproven") or view.shows(finding)


def _by_pack(findings: Findings, view: View) -> dict[str, list[Finding]]:
    groups: dict[str, list[Finding]] = {_RUN: []}
    for pack in findings.packs:
        groups.setdefault(pack.card.name, [])
    for finding in findings.findings:
        if written_always(finding, view):
            groups.setdefault(finding.rule.partition("/")[0], []).append(finding)
    return groups


def _suite(root: Tree.Element, name: str, number: int, made: date) -> Tree.Element:
    words = {
        "name": clean(name),
        "package": "fusewright",
        "id": str(number),
        "hostname": "localhost",
        "timestamp": f"{made.isoformat()}T00:00:00",
        "time": "0",
    }
    return Tree.SubElement(root, "testsuite", words)


def _properties(suite: Tree.Element, findings: Findings, view: View) -> None:
    rows = [
        ("fusewright", __version__), ("verdict", headline(findings)), *basis(findings, view)
    ]  # fmt: skip
    held = Tree.SubElement(suite, "properties")
    for name, value in rows:
        Tree.SubElement(held, "property", {"name": name, "value": value})


def _case(suite: Tree.Element, finding: Finding, file: str) -> None:
    pack, _, rule = finding.rule.partition("/")
    names = {
        "name": clean(finding.subject), "classname": clean(f"{pack}.{rule}"), "time": "0"
    }  # fmt: skip
    case = Tree.SubElement(suite, "testcase", names)
    if finding.verdict == "pass":
        return
    tag = {"fail": "failure", "unproven": "error"}.get(finding.verdict, "skipped")
    type_ = finding.severity if finding.verdict == "fail" else finding.verdict
    told = Tree.SubElement(case, tag, {"type": type_, "message": because(finding)})
    told.text = "\n".join(block_lines(block(finding, file), _WIDTH))


def _problems(suite: Tree.Element, findings: Findings) -> None:
    """What left something unchecked, and a run in which nothing else says why it is no pass."""
    told = [problem_line(each, findings.file) for each in findings.problems if each.incomplete]
    counts = findings.counts
    if findings.exit_status and not (told or counts["fail"] or counts["unproven"]):
        told.append(conclusion(findings))
    for line in told:
        names = {"name": line, "classname": "fusewright.run", "time": "0"}
        case = Tree.SubElement(suite, "testcase", names)
        Tree.SubElement(case, "error", {"type": "incomplete", "message": line})


def _close(suite: Tree.Element, findings: Findings | None) -> None:
    """The suite's last words, with those of the run in the suite of the run; then its counts."""
    words: list[str] = []
    if findings is not None:
        remarks = [each for each in findings.problems if not each.incomplete]
        words += [f"Remark: {problem_line(each, findings.file)}" for each in remarks]
        words += [f"Not checked: {each}" for each in not_checked(findings)]
        words += [f"Caution: {each}" for each in cautions(findings)]
    Tree.SubElement(suite, "system-out").text = "\n".join(words)
    Tree.SubElement(suite, "system-err")
    _count(suite, suite.iter("testcase"), skipped=True)


def _count(element: Tree.Element, cases: Iterable[Tree.Element], *, skipped: bool = False) -> None:
    held = list(cases)
    counts = {"tests": len(held)}
    for name, tag in (("failures", "failure"), ("errors", "error"), ("skipped", "skipped")):
        if tag != "skipped" or skipped:
            counts[name] = sum(case.find(tag) is not None for case in held)
    for name, count in counts.items():
        element.set(name, str(count))
