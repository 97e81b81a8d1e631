"""What is not stated is never better than what is: no field taken out improves a verdict."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import fusewright_us_premises
import pytest

from coordination.errors import BadInput
from coordination.rules.finding import Finding
from coordination.testing.change import changed, dump_text, leaves, load_text
from coordination.testing.run import findings_of

FOLDER = Path(fusewright_us_premises.__path__[0]) / "cases" / "systems"

#: Option values with which the premises' rules pass.
OPTIONS = {
    "use": "premises",
    "continuous_loads": "yes",
    "devices_at_batteries": "yes",
    "label_current": "7 kA",
    "label_voltage": "64 V",
    "label_date": "2026-03-02",
}
SYSTEMS = {
    "cabin.yaml": {"options.us_premises": OPTIONS, "parts.bank-51.nominal_voltage": "64 V"},
    "van.yaml": {"options.us_premises.devices_at_batteries": "yes"},
    "two_feeds.yaml": {"options.us_premises.devices_at_batteries": "yes"},
}


def judged(tree: dict) -> dict[tuple[str, str], Finding]:
    answer = findings_of(dump_text(tree))
    assert not [problem for problem in answer.problems if problem.kind in ("pack", "rule")]
    return {(finding.rule, finding.subject): finding for finding in answer.findings}


def fields(tree: dict) -> Iterator[tuple[str, ...]]:
    """Fields of parts, elements and options; the things themselves stay."""
    for steps in leaves(tree):
        element = steps[0] == "circuits" and len(steps) > 4 and steps[4] != "name"
        if element or (steps[0] in ("parts", "options") and len(steps) > 2):
            yield steps


def better(before: Finding, after: Finding) -> bool:
    """A fail may become unproven; nothing may become a pass, or pass with more to spare."""
    if after.verdict != "pass" or before.verdict != "pass":
        return after.verdict in ("pass", "note") and after.verdict != before.verdict
    if before.margin is None or after.margin is None:
        return before.margin is not None
    return after.margin > before.margin * (1 + 1e-9) and after.relation == before.relation


@pytest.mark.parametrize("name", SYSTEMS)
def test_no_field_taken_out_improves_a_verdict(name: str) -> None:
    tree = changed(load_text((FOLDER / name).read_text("utf-8")), SYSTEMS[name], ())
    tree["packs"] = ["us_premises"]
    before = judged(tree)
    assert sum(finding.verdict == "pass" for finding in before.values()) >= 5
    improved, tried = [], 0
    for steps in fields(tree):
        try:
            after = judged(changed(tree, {}, (steps,)))
        except BadInput:
            continue
        tried += 1
        improved += [
            f"without {'.'.join(steps)}, {rule} judges {subject} better"
            for (rule, subject), finding in after.items()
            if (rule, subject) in before and better(before[rule, subject], finding)
        ]
    assert tried >= 10
    assert improved == []
