"""Both readings of 183.455(c), where the ceiling and the list of ratings meet; sums by hand."""

from __future__ import annotations

import pytest
from fusewright_us_small_craft.device_limit import below_50_volts, from_50_volts, next_standard

from coordination.rules import Installation, Source, Unknown, given

FILE = Source("system file")


def leg(mm2: float, rated: float, *, engine: bool, bundle: int, volts: float) -> Installation:
    return Installation(
        leg="positive",
        area=given("area", "S", mm2 * 1e-6, "m²", FILE),
        insulation_temperature=given("rating", "T", rated, "°C", FILE),
        resistance_20c_max=Unknown("resistance", ("not stated",)),
        outside_diameter=Unknown("diameter", ("not stated",)),
        ambient=given("ambient", "T_a", 30.0, "°C", FILE),
        engine_space=engine,
        bundle=bundle,
        runs=1,
        sheathed=None,
        nominal_voltage=volts,
    )


def values(limits):
    return [each.value for each in (limits.literal, limits.corrected, limits.plain, limits.hard)]


@pytest.mark.parametrize(("current", "rating"), [
    (60.0, 60.0), (60.1, 70.0), (210.0, 225.0), (178.5, 200.0), (1.0, 10.0), (6000.1, float("inf")),
])  # fmt: skip
def test_the_next_standard_rating_is_no_smaller(current, rating):
    assert next_standard(current) == rating


def test_below_50_volts_the_bundle_is_left_out():
    # 4 AWG, 105 °C: 1.5 × 160 = 240; 1.5 × 160 × 0.85 = 204
    found = below_50_volts(leg(21.15, 105.0, engine=True, bundle=6, volts=48.0))
    assert values(found) == pytest.approx([240.0, 204.0, 204.0, 240.0])


def test_from_50_volts_the_next_rating_counts_up_to_the_ceiling():
    # 2 AWG: 210 × 0.85 = 178.5; next 200 ≤ 267.75; literal 210, next 225 ≤ 267.75
    found = from_50_volts(leg(33.63, 105.0, engine=True, bundle=1, volts=51.2))
    assert values(found) == pytest.approx([225.0, 200.0, 178.5, 267.75])


def test_a_next_rating_above_the_ceiling_is_none():
    # 18 AWG, 105 °C: 20 × 0.4 = 8; next 10 ≤ 12 counts.
    found = from_50_volts(leg(0.823, 105.0, engine=False, bundle=13, volts=51.2))
    assert values(found) == pytest.approx([20.0, 10.0, 8.0, 12.0])
    # 18 AWG, 60 °C in an engine space: 10 × 0.58 × 0.4 = 2.32; next 10 > 3.48 does not. The factor
    # 0.58 was not read: the hard limit is 1.5 × 10.
    found = from_50_volts(leg(0.823, 60.0, engine=True, bundle=13, volts=51.2))
    assert values(found) == pytest.approx([10.0, 2.32, 2.32, 15.0])
