"""The trade's cases and traps about time: P4, P5, F9, A-3, B-3. (P9 is in test_trade_cases_surges.)

Expected numbers are hand calculations, here or in the comments of a small system.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

SYSTEMS = Path(__file__).parent.parent / "fixtures" / "systems"
SMALL = SYSTEMS / "small"

Checked = Callable[[Path], tuple[int, Mapping[str, Any]]]
Holds = Callable[[Path, Mapping[str, Any]], None]
Variant = Callable[..., Path]

P4 = "p04-fuse-within-ampacity.yaml"
P5 = "p05-two-to-one-across-families.yaml"
F9 = "f09-one-and-a-quarter.yaml"


def bad(told: Mapping[str, Any]) -> set[tuple[str, str, str]]:
    return {
        (each["rule"].partition("/")[2], each["subject"], each["verdict"])
        for each in told["findings"]
        if each["verdict"] in ("fail", "unproven")
    }


def because(told: Mapping[str, Any], rule: str, subject: str) -> str:
    (found,) = (
        each
        for each in told["findings"]
        if (each["rule"], each["subject"]) == (f"fundamentals/{rule}", subject)
    )
    return str(found["because"])


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        (P4, {("fault-clears", "pump fuse", "fail")}),
        (P5, {("selectivity", "machine fuse", "fail")}),
        (F9, {("selectivity", "machine fuse", "fail")}),
    ],
)
def test_each_small_system_has_its_own_fault_only(
    name: str, expected: set[tuple[str, str, str]], checked: Checked
) -> None:
    status, told = checked(SMALL / name)
    assert bad(told) == expected
    assert status == 1


def test_p4_a_fuse_within_the_ampacity_does_not_clear_a_weak_fault(holds: Holds) -> None:
    within = {"rule": "cable-overload", "subject": "pump cable", "verdict": "pass"}
    holds(SMALL / P4, within | {"found": "80 A"})
    row = {"rule": "fault-clears", "subject": "pump fuse", "verdict": "fail", "severity": "fire"}
    holds(SMALL / P4, row | {"found": "6.60 s", "required": "5 s"})


def test_p4_half_the_length_is_cleared(holds: Holds, variant: Variant) -> None:
    """30.6 + 1.9 + 0.7 = 33.2 mΩ: 374 A; 2 s × (374 / 240)^-4.321 = 0.29 s."""
    path = variant(f"small/{P4}", ("length: 12 m", "length: 6 m"))
    row = {"rule": "fault-clears", "subject": "pump fuse", "verdict": "pass", "found": "0.29 s"}
    holds(path, row)


def test_p5_two_to_one_across_families_is_not_selective(holds: Holds, checked: Checked) -> None:
    """13.6 V / (10 + 0.12 + 0.2463) mΩ = 1 312 A. The strip fuse clears within 400 ms ×
    (1 312 / 800)^-3.018 = 89.9 ms; with 5 A of lamps the class-t may melt after 70 ms ×
    (1 317 / 1 000)^-3.424 = 27.3 ms."""
    row = {"rule": "selectivity", "subject": "machine fuse", "verdict": "fail"}
    holds(SMALL / P5, row | {"severity": "outage", "found": "89.9 ms", "required": "27.3 ms"})
    words = because(checked(SMALL / P5)[1], "selectivity", "machine fuse")
    assert "machine fuse (100 A) under main fuse (200 A)" in words


def test_p5_two_to_one_of_one_class_is(holds: Holds, variant: Variant) -> None:
    path = variant(f"small/{P5}", ("fuse: demo-s51-100, name", "fuse: demo-t-100, name"))
    holds(path, {"rule": "selectivity", "subject": "machine fuse", "verdict": "pass"})


def test_f9_one_and_a_quarter_to_one_fails_and_two_and_a_half_holds(
    checked: Checked, holds: Holds, variant: Variant
) -> None:
    words = because(checked(SMALL / F9)[1], "selectivity", "machine fuse")
    assert "machine fuse (200 A) under main fuse (250 A)" in words
    assert "proven up to 607 A" in words
    path = variant(
        f"small/{F9}",
        ("fuse: demo-t-200, name", "fuse: demo-t-100, name"),
        ("machine: {current: 150 A", "machine: {current: 75 A"),
    )
    holds(path, {"rule": "selectivity", "subject": "machine fuse", "verdict": "pass"})


def test_f9_without_the_upstream_curve_it_cannot_be_told(holds: Holds, tmp_path: Path) -> None:
    lines = (SMALL / F9).read_text(encoding="utf-8").splitlines()
    at = next(n for n, line in enumerate(lines) if line.startswith("  demo-t-250"))
    del lines[at + 1 : at + 4]
    path = tmp_path / F9
    path.write_text("\n".join(lines), encoding="utf-8")
    holds(path, {"rule": "selectivity", "subject": "machine fuse", "verdict": "unproven"})


def test_a3_the_main_fuse_is_named_beside_the_worse_one(checked: Checked) -> None:
    """Worst is the pack's fuse with one pack out; the main fuse fails all the same."""
    told = checked(SYSTEMS / "tender-planted.yaml")[1]
    words = because(told, "selectivity", "inverter fuse")
    assert "inverter fuse (250 A) under starboard fuse (200 A)" in words
    assert "nor under main fuse (300 A)" in words


def test_a3_the_cure_of_two_to_one_holds_under_the_main_fuse(checked: Checked) -> None:
    """In the mended boat 200 A stand under 400 A; what is left is waived: one pack out."""
    words = because(checked(SYSTEMS / "tender-cured.yaml")[1], "selectivity", "inverter fuse")
    assert "under starboard fuse (225 A)" in words
    assert "main fuse" not in words


def test_b3_the_two_cures_conflict(checked: Checked, variant: Variant) -> None:
    """B-2 wants 300 A for the inverter; then it is 300 A over 300 A, which fails as well."""
    path = variant(
        "van-planted.yaml",
        ("{fuse: demo-t-200, name: inverter fuse}", "{fuse: demo-sb-300, name: inverter fuse}"),
    )
    _, told = checked(path)
    assert ("device-load", "inverter fuse", "fail") not in bad(told)
    assert ("selectivity", "inverter fuse", "fail") in bad(told)
    words = because(told, "selectivity", "inverter fuse")
    assert "inverter fuse (300 A) under main fuse (300 A)" in words


def test_b3_a_battery_fuse_of_its_own_cures_both(checked: Checked) -> None:
    told = checked(SYSTEMS / "van-cured.yaml")[1]
    assert bad(told) == set()
    assert told["counts"]["waived"] == 0
