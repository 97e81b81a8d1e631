"""Where verdicts flip, against sums by hand; the system is `one_battery.yaml`."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

OVERNIGHT = Path(__file__).parents[3] / "fixtures" / "systems" / "small" / "overnight.yaml"
TWENTY = "interrupt_ratings: [{voltage: 125 V, current: 20 kA}]"
TEN = "interrupt_ratings: [{voltage: 125 V, current: 10 kA}]"
#: Resistance [Ω] of a metre of cable there and back, at 105 °C: 2 × 0.4 mΩ × (234.5 + 105) / 254.5.
PER_METRE = 2 * 0.4e-3 * 339.5 / 254.5


def test_interrupt_rating_passes_until_the_resistance_is_emf_over_rating(
    changed: Callable[..., Path], flip: Callable[..., Any]
) -> None:
    """R = E / I = 27.2 V / 20 kA = 1.36 mΩ; the battery's least is 1.40 mΩ."""
    found = flip(changed(), "bank-24: resistance.min", "interrupt-rating", "main fuse",
                 upward=False)  # fmt: skip
    assert (found.before, found.after, found.better) == ("pass", "fail", False)
    assert found.shown.text == "1.36 mΩ"
    assert found.flipped < 27.2 / 20e3 <= found.still * (1 + 1e-9)


def test_a_fail_is_told_until_when_it_lasts(
    changed: Callable[..., Path], flip: Callable[..., Any]
) -> None:
    """At 10 kA: R = 27.2 V / 10 kA = 2.72 mΩ, beyond the band's other end at 2.40 mΩ."""
    path = changed((TWENTY, TEN))
    found = flip(path, "bank-24: resistance.min", "interrupt-rating", "main fuse", upward=True)
    assert (found.before, found.after, found.better) == ("fail", "pass", True)
    assert found.shown.text == "2.72 mΩ"
    assert found.still < 2.72e-3 <= found.flipped * (1 + 1e-9)


def test_interrupt_rating_passes_until_the_emf_is_rating_times_resistance(
    changed: Callable[..., Path], flip: Callable[..., Any]
) -> None:
    """E = I R = 20 kA × 1.40 mΩ = 28.0 V."""
    found = flip(changed(), "bank-24: emf.max", "interrupt-rating", "main fuse", upward=True)
    assert found.shown.text == "28.0 V"
    assert found.still <= 28.0 * (1 + 1e-9)
    assert found.flipped > 28.0


def test_the_drop_fails_beyond_the_length_that_uses_it_up(
    changed: Callable[..., Path], flip: Callable[..., Any]
) -> None:
    """3 % of 24 V is 0.72 V; at 85 A that is 8.471 mΩ, of which the fuse has 0.20 mΩ:
    8.271 mΩ / 1.0672 mΩ/m = 7.750 m."""
    by_hand = (0.03 * 24 / 85 - 0.20e-3) / PER_METRE
    assert by_hand == pytest.approx(7.750, abs=0.001)
    found = flip(changed(), "cable: length", "voltage-drop", "machine", upward=True)
    assert found.still <= by_hand * (1 + 1e-9)
    assert found.flipped >= by_hand
    assert found.shown.value == pytest.approx(by_hand, rel=2e-4)


def test_the_weakest_fault_opens_the_fuse_up_to_the_length_that_leaves_it_enough(
    changed: Callable[..., Path], flip: Callable[..., Any]
) -> None:
    """5 s of the slowest curve are at 1000 A: 25.6 V / 1000 A = 25.6 mΩ, less 2.40 mΩ of the
    battery and 0.20 mΩ of the fuse: 23.0 mΩ / 1.0672 mΩ/m = 21.55 m."""
    curve = (
        "curve: {min_melt: [[110 A, 300 s], [400 A, 2 s], [2000 A, 5 ms]],"
        " max_clear: [[135 A, 600 s], [1000 A, 5 s], [3000 A, 10 ms]]}, terminal_limit: 90 °C"
    )
    by_hand = (25.6 / 1000 - 2.4e-3 - 0.2e-3) / PER_METRE
    assert by_hand == pytest.approx(21.55, abs=0.01)
    path = changed(("terminal_limit: 90 °C", curve))
    found = flip(path, "cable: length", "fault-clears", "main fuse", upward=True)
    # The current needs a millisecond to rise, which is a few millimetres of cable.
    assert found.still == pytest.approx(by_hand, rel=2e-3)
    assert found.shown.text == "21.5 m"
    assert found.before == "pass"


def test_the_load_at_which_125_per_cent_is_reached(
    changed: Callable[..., Path], flip: Callable[..., Any]
) -> None:
    """A continuous load of 1.25 × I ≤ 100 A: I = 80 A."""
    options = "options:\n  us_premises: {use: premises, continuous_loads: yes}\npacks: "
    path = changed(
        ("packs: [fundamentals]", options + "[us_premises]"), ("current: 85 A", "current: 60 A")
    )
    found = flip(path, "machine: current", "continuous-device", "main fuse", upward=True)
    assert (found.before, found.after) == ("pass", "fail")
    assert found.shown.text == "80.0 A"


def test_a_derating_table_flips_at_its_step(
    changed: Callable[..., Path], flip: Callable[..., Any]
) -> None:
    """90 % of 100 A bear 85 A up to 50 °C; from there the lower row counts: 80 A do not."""
    found = flip(changed(), "locker: ambient", "device-load", "main fuse", upward=True)
    assert (found.before, found.after) == ("pass", "fail")
    assert found.shown.text == "50.0 °C"
    assert found.flipped > 50.0


def test_the_air_at_which_ampacity_no_longer_bears_the_load(
    changed: Callable[..., Path], flip: Callable[..., Any]
) -> None:
    """NFPA 70:2023, Table 310.16: 1 AWG (42.4 mm²) at 90 °C 145 A. Table 310.15(B)(1)(1), 90 °C:
    0.87 at 41 to 45 °C, 0.82 to 50 °C. 122 A: 145 × 0.87 = 126.2 A bears it, 145 × 0.82 = 118.9 A
    does not."""
    answers = "{use: premises, continuous_loads: no, wiring: raceway}"
    options = f"options:\n  us_premises: {answers}\npacks: "
    path = changed(
        ("packs: [fundamentals]", options + "[us_premises, fundamentals]"),
        ("area: 50 mm²", "awg: 1"),
        ("insulation_temperature: 105 °C", "insulation_temperature: 90 °C"),
        ("current: 85 A", "current: 122 A"),
    )
    found = flip(path, "locker: ambient", "cable-ampacity", "cable", upward=True)
    assert found.before == "pass"
    assert found.shown.text == "45.0 °C"


def test_the_capacity_at_which_the_bank_no_longer_lasts_the_night(
    flip: Callable[..., Any]
) -> None:
    """12 h × 3.5 A = 42 Ah; of each ampere-hour 0.80 × 0.95 × 0.90 = 0.684 are there at least:
    42 / 0.684 = 61.4 Ah."""
    found = flip(OVERNIGHT, "pack-100: capacity", "run-time", "plotter", upward=False)
    assert (found.before, found.after) == ("pass", "fail")
    assert found.still == pytest.approx(42 / 0.684 * 3600, rel=2e-4)
    assert found.shown.text == "61.5 Ah"


def test_colder_than_its_table_nothing_is_known(flip: Callable[..., Any]) -> None:
    """The table of what a pack holds ends at -10 °C; there 0.80 × 0.95 × 0.75 × 100 Ah last."""
    found = flip(OVERNIGHT, "locker: coldest", "run-time", "plotter", upward=False)
    assert (found.before, found.after) == ("pass", "unproven")
    assert found.shown.text == "-10.0 °C"
