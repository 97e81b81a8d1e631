"""Fields about energy: read in SI, and every contradiction told at its place."""
# ruff: noqa: E501 -- a system file's lines, whose columns are pinned

from __future__ import annotations

import pytest

GOOD = """\
system: Energy
places:
  locker: {ambient: 35 °C, coldest: -5 °C}
parts:
  pack: {kind: battery, chemistry: lfp, capacity: 100 Ah, usable_depth: 80 %, capacity_tolerance: 0 %,
    capacity_factors: [[-10 °C, 70 %], [25 °C, 1.0]], charge_current: 50 A, charge_efficiency: 99 %, low_cutoff: 11 V}
  wet: {kind: battery, chemistry: lead-acid flooded, peukert_exponent: 1.25, rated_time: 20 h}
sources:
  house: {part: pack, usable_depth: 70 %, place: locker}
  start: {part: wet}
  alternator: {current_limited: 80 A, voltage: 14.2 V, continuous: 60 A, derating: [[25 °C, 100 %], [60 °C, 80 %]], regulated: yes}
equipment:
  fridge: {current: 5 A, duty: 50 %, least_duty: 20 %, must_run: 12 h}
circuits:
  a: {from: house, to: start, parts: [{joint: 1 mΩ}]}
  b: {from: house, to: alternator, parts: [{joint: 1 mΩ}]}
  c: {from: house, to: fridge, parts: [{joint: 1 mΩ}]}
"""


def test_figures_in_si(system_of):
    system = system_of(GOOD)
    house, fridge, alternator = (
        system.sources["house"], system.equipment["fridge"], system.sources["alternator"],
    )  # fmt: skip
    assert (house.place.ambient, house.place.coldest) == (35.0, -5.0)
    assert house.usable_depth == pytest.approx(0.7)
    assert house.part.usable_depth == pytest.approx(0.8)
    assert house.part.capacity_tolerance == 0.0
    assert [row for pair in house.part.capacity_factors for row in pair] == pytest.approx(
        [-10.0, 0.7, 25.0, 1.0]
    )
    assert (house.part.charge_current, house.part.low_cutoff) == (50.0, 11.0)
    assert system.sources["start"].part.peukert_exponent == 1.25
    # 20 h × 3600 s/h
    assert system.sources["start"].part.rated_time == 72_000.0
    assert (alternator.continuous, alternator.regulated) == (60.0, True)
    assert alternator.derating == ((25.0, 1.0), (60.0, 0.8))
    assert (fridge.duty, fridge.least_duty) == pytest.approx((0.5, 0.2))
    assert fridge.must_run == 43_200.0


@pytest.mark.parametrize(
    ("old", "new", "problem"),
    [
        ("coldest: -5 °C", "coldest: 40 °C",
         "3:37: coldest is warmer than ambient, the highest temperature there"),
        ("capacity_tolerance: 0 %", "capacity_tolerance: 60 %",
         "5:99: capacity_tolerance: '60 %' is out of range; allowed: 0 or more and at most 50 %"),
        ("[25 °C, 1.0]]", "[25 °C, 0.6]]",
         "6:40: capacity cannot fall with temperature; allowed: at least 0.7"),
        ("[25 °C, 1.0]]", "[-20 °C, 1.0]]",
         "6:40: capacity_factors must be by rising temperature; allowed: more than -10 °C"),
        ("chemistry: lfp,", "chemistry: lfp, peukert_exponent: 1.2,",
         "5:41: peukert_exponent belongs to lead-acid; this battery is lfp; "
         "allowed: capacity_factors, capacity_tolerance"),
        ("peukert_exponent: 1.25", "peukert_exponent: 0.8",
         "7:72: peukert_exponent: '0.8' is out of range; allowed: 1 to 2"),
        ("house: {part: pack,", "house: {part: pack, continuous: 5 A,",
         "9:23: source 'house' is a battery (part); continuous belongs to a source without one; "
         "allowed: part, or current_limited with voltage"),
        ("current_limited: 80 A,", "current_limited: 80 A, usable_depth: 50 %,",
         "11:39: source 'alternator' is no battery: nothing of it can be used up; "
         "allowed: usable_depth of a battery (part)"),
        ("continuous: 60 A", "continuous: 90 A",
         "11:68: continuous is more than current_limited, 80 A; allowed: at most 80 A"),
        ("[60 °C, 80 %]]", "[60 °C, 120 %]]",
         "11:101: derating cannot rise with temperature; allowed: at most 1"),
        ("least_duty: 20 %", "least_duty: 60 %",
         "13:50: least_duty is more than duty, 50 %; allowed: at most 50 %"),
        ("must_run: 12 h", "must_run: 12",
         "13:66: must_run: '12' has no unit: time wants seconds, minutes or hours (5 ms, 2 s, 1 h)"),
        ("least_duty: 20 %", "leastduty: 20 %",
         "13:38: unknown key 'leastduty'; allowed: power, efficiency, min_voltage, current, surge, "
         "start, stall, duty, least_duty, must_run, inrush, critical, cranking, drop_limit, output, place; "
         "did you mean 'least_duty'?"),
    ],
)  # fmt: skip
def test_contradictions(old, new, problem, problems_of):
    assert GOOD.count(old) == 1
    assert problems_of(GOOD.replace(old, new)) == [problem]
