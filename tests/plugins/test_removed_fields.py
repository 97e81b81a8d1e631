"""No field taken out of a passing system may leave a verdict at pass that rests on that field."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from coordination.errors import BadInput
from coordination.rules.finding import Finding, Findings
from coordination.testing.change import changed, dump_text, leaves, load_text
from coordination.testing.run import findings_of
from coordination.trace import Derived

SYSTEMS = sorted((Path(__file__).parents[2] / "fixtures" / "systems").glob("*-cured.yaml"))

#: Fields for which DESIGN.md states what holds where they are not written.
DEFAULTED = {
    "bundle": "1",
    "runs": "1",
    "spacing": "the cables touch",
    "place": "30 °C",
    "ambient": "30 °C",
    "return": "as the positive",
    "drop_limit": "by custom",
}
#: A row taken out of a list leaves other rows that were stated too.
_ROW = re.compile(r"\.\d+$")


def owner_and_field(path: str, tree: dict) -> tuple[str, str] | None:
    """The name and the field that a derivation calls the path's value; None if it has none."""
    steps = path.split(".")
    if steps[0] == "circuits" and len(steps) > 4 and steps[2] == "parts":
        row = tree["circuits"][steps[1]]["parts"][int(steps[3])]
        return row.get("name", f"{steps[1]}/{int(steps[3]) + 1}"), ".".join(steps[4:])
    if steps[0] in ("parts", "sources", "busbars", "equipment", "converters", "places"):
        return (steps[1], ".".join(steps[2:])) if len(steps) > 2 else None
    return None


def rests_on(finding: Finding) -> Iterator[tuple[str, str]]:
    """Owner and field of every stated value in the finding's derivation."""
    for value in (finding.found, finding.required):
        if isinstance(value, Derived):
            for step in value.steps():
                if step.source and step.source.document in ("part data", "system file"):
                    owner, colon, field = step.source.clause.partition(": ")
                    if colon:
                        yield owner, re.sub(r", line \d+$", "", field)


def by_key(findings: Findings) -> dict[tuple[str, str], Finding]:
    return {(finding.rule, finding.subject): finding for finding in findings.findings}


def resting_on(findings: Findings) -> dict[tuple[str, str], set[tuple[str, str]]]:
    """Which passes rest on a field: (owner, field) to keys of findings."""
    users: dict[tuple[str, str], set[tuple[str, str]]] = {}
    for key, finding in by_key(findings).items():
        if finding.verdict == "pass":
            for owner, field in rests_on(finding):
                users.setdefault((owner, field), set()).add(key)
    return users


def still_passing(tree: dict, path: str, users: dict) -> Iterator[str]:
    """Findings that pass though a field they rest on was taken out."""
    try:
        after = by_key(findings_of(dump_text(changed(tree, {}, (path,)))))
    except BadInput:
        return
    place = owner_and_field(path, tree)
    if place is None or _ROW.search(path) or place[1].split(".")[-1] in DEFAULTED:
        return
    owner, field = place
    for (user, used), keys in users.items():
        if user == owner and (used == field or used.startswith(f"{field}.")):
            for key in keys:
                if key in after and after[key].verdict == "pass":
                    yield f"without {path}, {key[0]} still passes {key[1]}"


@pytest.mark.parametrize("file", SYSTEMS, ids=lambda file: file.stem)
def test_no_pass_survives_the_loss_of_a_field_it_rests_on(file):
    tree = load_text(file.read_text("utf-8"))
    before = findings_of(dump_text(tree))
    assert before.verdict == "pass"
    users = resting_on(before)
    assert len(users) > 20, "hardly any finding says what it rests on"
    survivors = [text for path in leaves(tree) for text in still_passing(tree, path, users)]
    assert survivors == []
