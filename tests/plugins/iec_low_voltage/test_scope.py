"""What the pack speaks of: premises and vehicles, never boats; and it asks where it cannot tell."""

from __future__ import annotations

from pathlib import Path

import fusewright_iec_low_voltage
import pytest

from coordination.testing.run import findings_of

SHED = Path(fusewright_iec_low_voltage.__path__[0]) / "cases" / "systems" / "shed.yaml"
STATED = "use: premises, "


def findings(use: str) -> dict[str, str]:
    text = SHED.read_text(encoding="utf-8")
    assert STATED in text
    for old, new in ((STATED, use), ("system: shed", "system: shed\npacks: [iec_low_voltage]")):
        text = text.replace(old, new)
    answer = findings_of(text)
    assert answer.problems == ()
    return {finding.rule: finding.verdict for finding in answer.findings}


@pytest.mark.parametrize("use", ["premises", "vehicle"])
def test_judged_in_premises_and_vehicles(use: str) -> None:
    found = findings(f"use: {use}, ")
    assert found["iec_low_voltage/device-fits-cable"] == "pass"
    assert "iec_low_voltage/scope" not in found


def test_a_boat_is_noted_and_not_judged() -> None:
    assert findings("use: boat, ") == {"iec_low_voltage/scope": "note"}


def test_not_stated_is_unproven_and_not_judged() -> None:
    assert findings("") == {"iec_low_voltage/scope": "unproven"}
