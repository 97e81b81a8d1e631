"""What the pack speaks of: premises and vehicles, never boats; and it asks where it cannot tell."""

from __future__ import annotations

from pathlib import Path

import fusewright_us_premises
import pytest

from coordination.testing.run import findings_of

CABIN = Path(fusewright_us_premises.__path__[0]) / "cases" / "systems" / "cabin.yaml"
STATED = "options: {us_premises: {use: premises}}"


def findings(options: str) -> dict[str, str]:
    text = CABIN.read_text(encoding="utf-8")
    assert STATED in text
    for old, new in ((STATED, options), ("system: cabin", "system: cabin\npacks: [us_premises]")):
        text = text.replace(old, new)
    answer = findings_of(text)
    assert answer.problems == ()
    return {finding.rule: finding.verdict for finding in answer.findings}


@pytest.mark.parametrize("use", ["premises", "vehicle"])
def test_judged_in_premises_and_vehicles(use: str) -> None:
    found = findings(f"options: {{us_premises: {{use: {use}}}}}")
    assert found["us_premises/conductor-protection"] == "pass"
    assert "us_premises/scope" not in found


def test_a_boat_is_noted_and_not_judged() -> None:
    assert findings("options: {us_premises: {use: boat}}") == {"us_premises/scope": "note"}


def test_not_stated_is_unproven_and_not_judged() -> None:
    assert findings("") == {"us_premises/scope": "unproven"}
