"""A battery's resistance from two loads, its band, and the rules that are judged anew by it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from coordination.measured.resistance import last_digit

SPREAD = "    spread: {under: 5 %, over: 30 %}\n"


def test_the_band_is_that_of_the_meters_and_the_spread(outcome: Callable[..., Any]) -> None:
    """(26.50 − 25.80 V) / (220 − 20 A) = 3.5 mΩ.

    Steps: 0.70 V × (1 ∓ 0.005) ∓ 2 × 0.01 V = 0.6765 ... 0.7235 V; ammeter not stated, so 2 % and
    the last digit written: 200 A × (1 ∓ 0.02) ∓ 2 A = 194 ... 206 A.
    0.6765 / 206 = 3.284 mΩ, 0.7235 / 194 = 3.729 mΩ; less 5 % 3.1198, more 30 % 4.848 mΩ; outwards.
    """
    found = outcome().resistances["pack"]
    assert found.value.value == pytest.approx(3.5e-3)
    assert (found.meters.min, found.meters.max) == pytest.approx((3.28398e-3, 3.72938e-3), rel=1e-5)
    assert found.texts == ("3.11 mΩ", "4.85 mΩ")
    assert (found.band.min, found.band.max) == pytest.approx((3.11e-3, 4.85e-3))
    assert not found.assumed


def test_without_a_stated_spread_the_usual_one_is_assumed(outcome: Callable[..., Any]) -> None:
    """3.284 × 0.85 = 2.791, 3.729 × 1.6 = 5.967 mΩ."""
    found = outcome((SPREAD, "")).resistances["pack"]
    assert found.assumed
    assert found.texts == ("2.79 mΩ", "5.97 mΩ")


def test_stated_meters_take_the_place_of_common_practice(outcome: Callable[..., Any]) -> None:
    """0.70 × (1 ∓ 0.001) ∓ 2 mV = 0.6973, 0.7027 V; 200 × (1 ∓ 0.01) ∓ 0.2 A = 197.8, 202.2 A;
    no spread: 3.4486, 3.5526 mΩ."""
    found = outcome(
        ("voltage: {accuracy: 0.5 %,", "current: {accuracy: 1 %, resolution: 0.1 A}\n"
         "  voltage: {accuracy: 0.1 %, resolution: 1 mV,"),
        ("{under: 5 %, over: 30 %}", "{under: 0 %, over: 0 %}"),
    ).resistances["pack"]  # fmt: skip
    assert found.texts == ("3.44 mΩ", "3.56 mΩ")


def test_a_fail_by_an_assumed_band_passes_by_the_measured_one(outcome: Callable[..., Any]) -> None:
    """Stated 3.2 mΩ: assumed 2.72 mΩ, 27.2 V / 2.72 mΩ = 10 kA against 9 kA at 32 V. Measured:

    27.2 V / 3.11 mΩ = 8.746 kA.
    """
    made = outcome()
    (change,) = made.changes
    assert (change.before.rule, change.before.subject) == (
        "fundamentals/interrupt-rating", "main fuse"
    )  # fmt: skip
    assert (change.before.verdict, change.after.verdict) == ("fail", "pass")
    assert change.before.found.value == pytest.approx(10_000)
    assert change.after.found.value == pytest.approx(27.2 / 3.11e-3)
    assert made.after.counts["fail"] == made.before.counts["fail"] - 1


def test_a_pass_can_become_a_fail(outcome: Callable[..., Any]) -> None:
    """Stated 4 mΩ: 27.2 V / 3.4 mΩ = 8 kA passes 8.5 kA; the measured 8.746 kA does not."""
    bench = (("resistance: 3.2 mΩ", "resistance: 4 mΩ"), ("current: 9 kA", "current: 8.5 kA"))
    (change,) = outcome(bench=bench).changes
    assert (change.before.verdict, change.after.verdict) == ("pass", "fail")
    assert outcome(bench=bench).exit_status == 1


def test_a_weaker_battery_weakens_the_least_fault_current(outcome: Callable[..., Any]) -> None:
    """The weakest fault behind the heater fuse: 25.6 V / (R + 0.2 + 0.2 + 2.80511 mΩ)."""
    made = outcome()
    fuse = next(e for e in made.after.system.elements() if e.name == "heater fuse")
    before, after = (
        found.studies["normal"].fault_min_through(fuse).value for found in (made.before, made.after)
    )
    assert before == pytest.approx(25.6 / (5.12 + 3.20511) * 1e3, rel=1e-5)
    assert after == pytest.approx(25.6 / (4.85 + 3.20511) * 1e3, rel=1e-5)


def test_only_what_was_measured_is_replaced(outcome: Callable[..., Any]) -> None:
    made = outcome()
    old, new = (found.system for found in (made.before, made.after))
    assert new.sources["shore charger"] is old.sources["shore charger"]
    assert new.circuits is old.circuits
    assert old.sources["pack"].part.id == "pack-230"
    assert new.sources["pack"].part.id == "pack-230 as measured 2026-03-05"
    assert "resistance.assumed" not in new.sources["pack"].part.written


def test_the_suggested_edit_gives_the_verdicts_that_were_judged(
    outcome: Callable[..., Any],
) -> None:
    made = outcome()
    edited = outcome(bench=(("resistance: 3.2 mΩ", "resistance: {min: 3.11 mΩ, max: 4.85 mΩ}"),))
    assert edited.before.counts == made.after.counts
    assert edited.changes == ()


@pytest.mark.parametrize(
    ("text", "digit"),
    [("13.25 V", 0.01), ("13 V", 1.0), ("640 mV", 1e-3), ("0.64 kV", 10.0), ("1.2e1 V", 1.0)],
)
def test_the_last_digit_is_that_of_the_written_reading(text: str, digit: float) -> None:
    assert last_digit(text, "voltage") == pytest.approx(digit)


def test_two_batteries_of_one_part_keep_their_own_bands(outcome: Callable[..., Any]) -> None:
    """The second is not measured: it keeps 2.72 mΩ, so its fuse sees 27.2 / 2.72 = 10 kA."""
    bench = (
        ("  shore charger:", "  pack 2: {part: pack-230, place: locker}\n  shore charger:"),
        ("  heater feed:", "  feed 2: {from: pack 2, to: bus,"
         " parts: [{fuse: fuse-200, name: fuse 2, distance: 100 mm}]}\n  heater feed:"),
    )  # fmt: skip
    made = outcome(bench=bench)
    fuses = {e.name: e for e in made.after.system.elements()}
    study = made.after.studies["at sea"]
    # Each is the larger of its own battery's current and the other's.
    assert study.duty(fuses["main fuse"]).value == pytest.approx(10_000)
    assert study.duty(fuses["fuse 2"]).value == pytest.approx(10_000)
    assert study.fault_max("bus").value == pytest.approx(27.2 / 2.72e-3 + 27.2 / 3.11e-3)
