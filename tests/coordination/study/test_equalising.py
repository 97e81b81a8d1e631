"""What flows when banks of unequal voltage are joined, by hand."""

from __future__ import annotations

import pytest

from coordination.trace import Unknown
from tests.coordination.study.banks import case

EMERGENCY = ("circuits:\n", "conditions:\n  emergency: {close: [link switch], without: [alternator, dc-dc]}\ncircuits:\n")  # noqa: E501


def test_both_ways_over_a_link():
    """(27 − 24) V / 20 mΩ = 150 A, (26 − 25) V / 20 mΩ = 50 A."""
    made = case("start_side", "emergency", a=EMERGENCY)
    (switch,) = made.subjects("disconnect")
    to_start, back = made.equalising(switch)
    assert [source.name for source in to_start.giving] == ["house"]
    assert to_start.current.value == pytest.approx(150.0)
    assert back.current.value == pytest.approx(50.0)
    assert to_start.each["house"].value == pytest.approx(150.0)
    assert to_start.each["starter battery"].value == pytest.approx(150.0)
    assert to_start.through["link fuse"].value == pytest.approx(150.0)
    # 20 mΩ / (2 V / 360 kC + 2 V / 360 kC) = 1800 s
    assert to_start.time_constant.value == pytest.approx(1800.0)


def test_a_switch_that_is_open_joins_nothing():
    made = case("start_side", a=EMERGENCY)
    (switch,) = made.subjects("disconnect")
    assert made.equalising(switch) == ()


def test_more_resistance_never_drives_more():
    found = []
    for ohms in (5, 10, 20, 100):
        link = ("joint: 10 mΩ", f"joint: {ohms} mΩ")
        made = case("start_side", "emergency", a=EMERGENCY, b=link)
        (switch,) = made.subjects("disconnect")
        found.append(made.equalising(switch)[0].current.value)
    assert found == sorted(found, reverse=True)


def test_a_full_battery_joined_to_low_ones():
    """2 mΩ against 3 ∥ 4 = 12/7 mΩ: 0.6 V / 3.714 mΩ = 161.5 A, and 0.1 V / 3.714 mΩ = 26.9 A."""
    made = case("three")
    near, *_ = made.joinings(made.banks()[0])
    assert near.full.value == pytest.approx(0.6 / (2e-3 + 12e-3 / 7))
    assert near.apart.value == pytest.approx(0.1 / (2e-3 + 12e-3 / 7))
    assert isinstance(near.time_constant, Unknown)


def test_two_batteries_even_out_with_their_time_constant():
    """Without the far one: 0.6 V / 5 mΩ = 120 A; 5 mΩ / (0.6 V / 360 kC × 2) = 1500 s."""
    out = ("circuits:\n", "conditions:\n  two: {without: [far]}\ncircuits:\n")
    made = case("three", "two", a=out)
    for each in made.joinings(made.banks()[0]):
        assert each.full.value == pytest.approx(120.0)
        assert each.time_constant.value == pytest.approx(1500.0)
