"""The trade's traps about what is no fault: an inverter's inrush (P9), a windlass (Q36).

Expected numbers are hand calculations, in the comments of the small systems.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

SMALL = Path(__file__).parent.parent / "fixtures" / "systems" / "small"
P9 = SMALL / "p09-inrush-of-an-inverter.yaml"
Q36 = SMALL / "q36-windlass.yaml"

Checked = Callable[[Path], tuple[int, Mapping[str, Any]]]
Finding = Callable[[Path, str, str], Mapping[str, Any]]


@pytest.fixture
def finding(checked: Checked) -> Finding:
    """The one finding of a rule of the pack fundamentals on a subject."""

    def find(path: Path, rule: str, subject: str) -> Mapping[str, Any]:
        rows: list[Mapping[str, Any]] = checked(path)[1]["findings"]
        wanted = (f"fundamentals/{rule}", subject)
        (found,) = (each for each in rows if (each["rule"], each["subject"]) == wanted)
        return found

    return find


def changed(path: Path, folder: Path, *swaps: tuple[str, str]) -> Path:
    """A copy of a system with pieces of its text swapped, each of which stands in it once."""
    text = path.read_text(encoding="utf-8")
    for old, new in swaps:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    copy = folder / path.name
    copy.write_text(text, encoding="utf-8")
    return copy


def test_p9_a_peak_of_9_ka_opens_no_fuse(finding: Finding) -> None:
    """5028 A²s against 50 000 A²s, though the peak is 37 times the rating."""
    found = finding(P9, "ride-through", "inverter")
    assert found["verdict"] == "pass"
    assert found["found"] == {"value": pytest.approx(5028, abs=1), "unit": "A²s"}
    assert found["required"]["value"] == 50_000


@pytest.mark.parametrize(
    ("rule", "subject", "part"),
    [
        ("switch-inrush", "pack contactor", "contactor-200: breaking >= 9.31 kA"),
        ("battery-surge", "pack", "rack-48: discharge.peak >= 9.31 kA"),
    ],
)
def test_p9_the_contactor_and_the_electronics_are_at_risk_each_by_name(
    rule: str, subject: str, part: str, finding: Finding
) -> None:
    found = finding(P9, rule, subject)
    assert found["verdict"] == "unproven"
    assert len(found["missing"]) == 1
    assert found["missing"][0].startswith(part)
    assert "precharge" in found["missing"][0]


def test_p9_nothing_fails(checked: Checked) -> None:
    _, told = checked(P9)
    assert told["counts"]["fail"] == 0
    assert told["problems"] == []


def test_p9_with_a_precharge_resistor_all_is_well(
    tmp_path: Path, checked: Checked, finding: Finding
) -> None:
    """54 V through 22 Ω: 2.45 A at most."""
    path = changed(P9, tmp_path, ("resistance: 0.3 mΩ}", "resistance: 22 Ω}"))
    found = finding(path, "switch-inrush", "pack contactor")
    assert found["verdict"] == "pass"
    assert found["found"]["value"] == pytest.approx(54 / 22.0055, abs=1e-4)
    assert checked(path)[0] == 0


def test_p9_a_small_fuse_does_blow(tmp_path: Path, finding: Finding) -> None:
    """The heat decides, so a fuse that melts at less than 5028 A²s fails."""
    path = changed(P9, tmp_path, ("melting_i2t: 50000 A²s", "melting_i2t: 5000 A²s"))
    assert finding(path, "ride-through", "inverter")["verdict"] == "fail"


def test_q36_a_windlass_breaks_out_and_stalls_behind_its_breaker(
    checked: Checked, finding: Finding
) -> None:
    """6 s at 240 A are twice the stall's 3 s; of breaking out, 10 s at 200 A ten times the 1 s."""
    found = finding(Q36, "ride-through", "windlass")
    assert found["verdict"] == "pass"
    assert (found["found"]["value"], found["required"]["value"]) == (pytest.approx(6), 3)
    assert finding(Q36, "interrupt-rating", "windlass breaker")["verdict"] == "pass"
    assert checked(Q36)[1]["counts"]["fail"] == 0


def test_q36_a_breaker_chosen_by_the_running_current_trips_before_the_anchor_is_out(
    tmp_path: Path, finding: Finding
) -> None:
    """Held for 7 s, the stall outlasts the 6 s that the breaker is sure to stay closed."""
    path = changed(
        Q36, tmp_path, ("stall: {current: 240 A, time: 3 s}", "stall: {current: 240 A, time: 7 s}")
    )
    found = finding(path, "ride-through", "windlass")
    assert (found["verdict"], found["severity"]) == ("fail", "outage")
    assert "stall of windlass through windlass breaker" in found["because"]


def test_q36_a_breaker_without_a_curve_proves_nothing(tmp_path: Path, finding: Finding) -> None:
    points = "[[110 A, 3600 s], [150 A, 30 s], [200 A, 10 s], [240 A, 6 s], [600 A, 800 ms]]"
    path = changed(Q36, tmp_path, (f"min_trip: {points},", ""))
    found = finding(path, "ride-through", "windlass")
    assert found["verdict"] == "unproven"
    assert "thermal-100: minimum trip curve at 240 A" in found["missing"]
