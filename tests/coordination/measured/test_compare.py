"""Measured values beside predicted ones, each prediction a sum by hand."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from coordination.measured.compare import verdict_of

Find = Callable[..., Any]


def test_a_drop_lies_between_cold_and_hot_copper(compared: Find) -> None:
    """80 A, alone: fuses 0 and 0.1 mΩ, legs 2 × 2 m × 0.5 mΩ/m: 80 × 2.1 mΩ = 168 mV.

    Hot: 0.2 + 0.2 + 2 × 2 × 0.55 × (234.5 + 90) / 254.5 = 3.20511 mΩ: 256.4 mV. Limit 5 % of 24 V.
    """
    drop = compared("voltage drop")
    assert (drop.low, drop.high) == pytest.approx((0.168, 0.256409), rel=1e-5)
    assert drop.limit == pytest.approx(1.2)
    assert drop.verdict == "within"


@pytest.mark.parametrize(
    ("reading", "verdict"),
    [
        ("0.27 V", "outside"),  # 0.27 × 0.995 − 0.01 = 0.25865 > 0.25641
        ("0.26 V", "within"),  # 0.2487
        ("0.15 V", "outside"),  # 0.15 × 1.005 + 0.01 = 0.16075 < 0.168
        ("0.16 V", "within"),  # 0.1708
        ("1.30 V", "over the limit"),
        ("1.20 V", "cannot tell"),  # 1.20 ± 0.016 around the limit
    ],
)
def test_the_meter_leaves_a_drop_open(reading: str, verdict: str, compared: Find) -> None:
    assert compared("voltage drop", ("drop: 0.21 V", f"drop: {reading}")).verdict == verdict


def test_with_all_drawing_the_common_way_loses_more(compared: Find) -> None:
    """The lamp's 10 A flow through the main fuse too: 0.2 mΩ × 10 A = 2 mV more, when hot."""
    drop = compared("voltage drop", ("drop: 0.21 V", "drop: 0.21 V, drawing: all"))
    assert drop.high == pytest.approx(0.258409, rel=1e-5)


def test_a_terminal_is_no_warmer_than_its_cable(compared: Find, outcome: Find) -> None:
    """25 + (90 − 35) (80 / Iz)², Iz by the ampacity of the study in 35 °C."""
    warm = compared("terminal temperature")
    study = outcome().after.studies["normal"]
    cable = next(e for e in study.system.elements() if e.name == "heater cable")
    limit = study.ampacity(cable, study.legs(cable)[0]).value
    assert warm.high == pytest.approx(25 + 55 * (80 / limit) ** 2)
    assert (warm.low, warm.limit, warm.verdict) == (25.0, 90.0, "within")


@pytest.mark.parametrize(
    ("reading", "verdict"), [("45 °C", "outside"), ("89 °C", "cannot tell"),
                             ("93 °C", "over the limit"), ("22 °C", "outside")],
)  # fmt: skip
def test_a_warm_terminal_is_told(reading: str, verdict: str, compared: Find) -> None:
    """The thermometer is taken for ± 2 °C; 22 + 2 °C are still less than the air's 25 °C."""
    change = ("temperature: 33 °C", f"temperature: {reading}")
    assert compared("terminal temperature", change).verdict == verdict


def test_a_terminal_is_scaled_to_its_design_current(compared: Find) -> None:
    """100 A in 35 °C: 35 + (33 − 25) × (100 / 80)² = 47.5 °C; ± 2 × (1 + 1.5625) = 5.125 °C."""
    there = compared("the same at its design current")
    assert there.value == pytest.approx(47.5)
    assert there.error == pytest.approx(5.125)
    hot = compared("the same at its design current", ("temperature: 33 °C", "temperature: 65 °C"))
    assert hot.value == pytest.approx(97.5)
    assert hot.verdict == "over the limit"


def test_a_resting_voltage_is_held_against_the_band_of_the_file(compared: Find) -> None:
    resting = compared("open-circuit voltage")
    assert (resting.low, resting.high, resting.verdict) == (25.6, 27.2, "within")
    full = compared("open-circuit voltage", ("open_circuit: 26.60 V", "open_circuit: 27.40 V"))
    assert full.verdict == "outside"  # 27.40 × 0.995 − 0.01 = 27.253


def test_a_resistance_within_the_files_band_says_so(compared: Find) -> None:
    """3.284 ... 3.729 within 2.72 ... 5.12 mΩ; 25.60 V give 4.5 mΩ, 4.25 ... 4.76; 25.40 V 5.5."""
    assert compared("resistance").verdict == "within"
    assert compared("resistance", ("voltage: 25.80 V", "voltage: 25.60 V")).verdict == "within"
    far = compared("resistance", ("voltage: 25.80 V", "voltage: 25.40 V"))
    assert far.verdict == "judged anew"


@pytest.mark.parametrize(
    ("shore", "verdict"),
    [("9.3 A, limit: 16 A", "within the limit"), ("17 A, limit: 16 A", "cannot tell"),
     ("18 A, limit: 16 A", "over the limit"), ("18 A", "no prediction")],
)  # fmt: skip
def test_shore_current_is_held_against_its_limit(
    shore: str, verdict: str, compared: Find
) -> None:
    """17 A less 2 % less the last digit, 1 A, is 15.66 A; 18 A 16.64 A."""
    change = ("current: 9.3 A, limit: 16 A", f"current: {shore}")
    assert compared("shore current", change).verdict == verdict


def test_an_unknown_device_leaves_no_prediction(compared: Find) -> None:
    unknown = ("resistance: {min: 0 mΩ, max: 0.2 mΩ}, terminal_limit", "terminal_limit")
    drop = compared("voltage drop", bench=(unknown,))
    assert (drop.low, drop.high, drop.verdict) == (None, None, "within the limit")


@pytest.mark.parametrize(
    ("change", "status"),
    [
        (("drop: 0.21 V", "drop: 1.30 V"), 1),
        (("drop: 0.21 V", "drop: 0.27 V"), 3),
        (("limit: 16 A", "limit: 9.4 A"), 3),
        (("limit: 16 A", "limit: 9 A"), 1),
        (("drop: 0.21 V", "drop: 0.22 V"), 0),
    ],
)
def test_what_was_measured_counts_in_the_exit_status(
    change: tuple[str, str], status: int, outcome: Find, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Past a limit 1; against a prediction, or not to be told, at best 3; else as `check`."""
    made = outcome(change)
    monkeypatch.setattr(type(made.after), "exit_status", property(lambda _: 0))
    assert made.exit_status == status


def test_a_fail_of_the_rules_stays_one(outcome: Find) -> None:
    assert outcome().after.exit_status == 1  # other rules fail on the bench
    assert outcome().exit_status == 1


def test_a_limit_goes_before_a_prediction() -> None:
    assert verdict_of(95.0, 1.0, 20.0, 99.0, 90.0) == "over the limit"
    assert verdict_of(50.0, 1.0, None, None, None) == "no prediction"
    assert verdict_of(50.0, 1.0, None, 50.5, None) == "within"
