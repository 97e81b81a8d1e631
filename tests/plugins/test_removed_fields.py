"""No field taken out of a passing system may leave a verdict at pass that rests on that field."""

from __future__ import annotations

import os
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

#: Fields of which it is stated what holds where they are not written. A row taken out of a list is
#: none either: the rows that are left were stated too.
DEFAULTED = {
    "bundle": "1",
    "runs": "1",
    "spacing": "the cables touch",
    "place": "30 °C",
    "ambient": "30 °C",
    "return": "as the positive",
    "drop_limit": "by custom",
    "surge": "none",
}
#: Fields that count as the worst they could be where they are not written: the margin must shrink.
WORST_CASE = {
    "resistance": "0 in the max bound",
    "area": "a cable without resistance counts 0 in the max bound",
    "outside_diameter": "a bare wire's, that cools worst",
}
#: Fields without which another figure of the same part bounds the same, though less well.
BOUNDED_OTHERWISE = {
    "curve": "clearing and melting I²t",
    "max_clear": "clearing I²t",
    "min_melt": "melting I²t",
    "clearing_i2t": "the clearing curve",
    "melting_i2t": "the melting curve",
    "short_time": "the section of a copper bar",
    "intermittent": "the continuous or the breaking rating",
    "breaking": "the continuous or an intermittent rating",
    "peak": "the continuous discharge",
}
#: Rules that take the worst where a figure is not known, and so must lose margin.
PESSIMISTIC = {
    "fundamentals/cable-withstand": "a load that is not known: the insulation's temperature",
}

Steps = tuple[str, ...]
Users = dict[tuple[str, str], set[tuple[str, str]]]


def owner_and_field(steps: Steps, tree: dict) -> tuple[str, str] | None:
    """The name and the field that a derivation calls the value; None if it is not a field."""
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


def resting_on(findings: Findings) -> Users:
    """Which passes rest on a field: (owner, field) to keys of findings."""
    users: Users = {}
    for key, finding in by_key(findings).items():
        if finding.verdict == "pass":
            for owner, field in rests_on(finding):
                users.setdefault((owner, field), set()).add(key)
    return users


def users_of(place: tuple[str, str], users: Users) -> set[tuple[str, str]]:
    """Findings that rest on the field, or on a field inside it."""
    owner, field = place
    return {
        key
        for (user, used), keys in users.items()
        if user == owner and (used == field or used.startswith(f"{field}."))
        for key in keys
    }


def worth_removing(tree: dict, users: Users) -> Iterator[tuple[Steps, set[tuple[str, str]]]]:
    """Every field, with what rests on it; of fields that the same rules rest on, the first.

    All of them, which takes minutes, if FUSEWRIGHT_EVERY_FIELD is set.
    """
    seen = set()
    for steps in leaves(tree):
        place = owner_and_field(steps, tree)
        if place is None:
            continue
        resting = users_of(place, users)
        alike = (steps[0], re.sub(r"\d+", "#", place[1]), frozenset(rule for rule, _ in resting))
        if alike not in seen or "FUSEWRIGHT_EVERY_FIELD" in os.environ:
            seen.add(alike)
            yield steps, resting


def survivors(
    tree: dict, steps: Steps, resting: set[tuple[str, str]], before: Findings
) -> Iterator[str]:
    """Findings that pass though a field they rest on was taken out."""
    try:
        after = by_key(findings_of(dump_text(changed(tree, {}, (steps,)))))
    except BadInput:
        return
    if steps[-1].isdigit() or steps[-1] in DEFAULTED:
        return
    for key in sorted(resting):
        if key in after and after[key].verdict == "pass":
            now, then = after[key].margin or 0.0, by_key(before)[key].margin or 0.0
            smaller = steps[-1] in WORST_CASE and now < then
            otherwise = steps[-1] in BOUNDED_OTHERWISE or key[0] in PESSIMISTIC
            if not (smaller or (otherwise and now <= then * (1 + 1e-9))):
                yield f"without {'.'.join(steps)}, {key[0]} still passes {key[1]}"


@pytest.mark.parametrize("file", SYSTEMS, ids=lambda file: file.stem)
def test_no_pass_survives_the_loss_of_a_field_it_rests_on(file):
    tree = load_text(file.read_text("utf-8"))
    before = findings_of(dump_text(tree))
    assert before.verdict == "pass"
    users = resting_on(before)
    fields = list(worth_removing(tree, users))
    assert sum(bool(resting) for _, resting in fields) > 20
    passing_on = [
        text for steps, resting in fields for text in survivors(tree, steps, resting, before)
    ]
    assert passing_on == []
