"""The ampacity basis: sizes, columns, engine space, bundles; all sums by hand."""

from __future__ import annotations

import pytest
from fusewright_us_small_craft.table5 import BASIS, bundled_share

from coordination.rules import Unknown
from coordination.testing import a_leg


def leg(mm2=None, rated=105.0, **changes):
    return a_leg(mm2 and mm2 * 1e-6, rated, **changes)


def amps(installation):
    return BASIS.ampacity(installation).value


@pytest.mark.parametrize(("mm2", "row"), [
    (21.1506, 160), (107.2193, 445), (0.823, 20),      # 4 AWG, 4/0, 18 AWG
    (107.0, 445), (33.6, 210), (21.1, 160),            # as sheets round them
    # Metric sizes count as the next smaller one; 250 kcmil, 126.7 mm², is no longer listed.
    (16.0, 120), (25.0, 160), (35.0, 210), (50.0, 245), (70.0, 330), (95.0, 385),
    (120.0, 445), (126.0, 445),
    (1.5, 25), (2.5, 35), (16.7732, 120),              # 5 AWG is not listed: 6 AWG counts
])  # fmt: skip
def test_the_largest_listed_size_that_is_no_larger_counts(mm2, row):
    assert amps(leg(mm2)) == pytest.approx(row)


@pytest.mark.parametrize(("rated", "row"), [
    (60, 105), (74, 105), (75, 125), (80, 130), (85, 130), (90, 135), (104, 135), (105, 160),
    (110, 160), (125, 170), (150, 170), (200, 180), (250, 180),
])  # fmt: skip
def test_the_column_does_not_exceed_the_cable_s_rating(rated, row):
    """4 AWG in every column of the table."""
    assert amps(leg(21.1506, rated)) == pytest.approx(row)


@pytest.mark.parametrize(("mm2", "rated"), [(0.75, 105), (126.7, 105), (150.0, 105), (21.15, 59)])
def test_outside_the_table_nothing_is_known(mm2, rated):
    found = BASIS.ampacity(leg(mm2, float(rated)))
    assert isinstance(found, Unknown)
    assert "Table 5" in found.missing[0]


def test_without_a_size_or_a_rating_nothing_is_known():
    assert BASIS.ampacity(leg()).missing == ("area",)
    bare = leg(21.15, insulation_temperature=Unknown("rating", ("insulation_temperature",)))
    assert BASIS.ampacity(bare).missing == ("insulation_temperature",)


@pytest.mark.parametrize(("rated", "found"), [
    (105, 136.0),            # 160 × 0.85; the formula's 0.856 would give 137
    (60, 60.9), (75, 93.75), (80, 101.4), (90, 110.7), (125, 151.3), (200, 180.0),
    (110, 136.0),            # 105 °C column: its factor, not the one for 110 °C
])  # fmt: skip
def test_an_engine_space_takes_its_published_share(rated, found):
    assert amps(leg(21.1506, float(rated), engine_space=True)) == pytest.approx(found)


def test_a_factor_that_was_not_read_is_marked_so():
    def unread(rated):
        steps = BASIS.ampacity(leg(21.15, float(rated), engine_space=True)).steps()
        return [step.symbol for step in steps if step.source and not step.source.read]

    assert unread(105) == []
    assert unread(75) == ["k_e"]


@pytest.mark.parametrize(("volts", "bundle", "found"), [
    (48.0, 2, 160.0), (49.99, 13, 160.0),          # below 50 V bundles do not count
    (50.0, 1, 160.0),                              # two conductors: fewer than three
    (50.0, 2, 96.0), (51.2, 3, 96.0),              # 4 and 6 conductors: × 0.6
    (51.2, 4, 80.0), (51.2, 12, 80.0),             # 8 and 24: × 0.5
    (51.2, 13, 64.0),                              # 26: × 0.4
])  # fmt: skip
def test_bundles_count_from_50_volts_on(volts, bundle, found):
    assert amps(leg(21.1506, bundle=bundle, nominal_voltage=volts)) == pytest.approx(found)


def test_three_conductors_have_a_factor_of_their_own():
    assert [bundled_share(n) for n in (3, 4, 6, 7, 24, 25)] == [0.7, 0.6, 0.6, 0.5, 0.5, 0.4]


def test_equal_runs_add_up_and_lie_together():
    assert amps(leg(21.1506, runs=2)) == pytest.approx(320.0)
    # Two runs are four conductors: 2 × 160 × 0.6.
    assert amps(leg(21.1506, runs=2, nominal_voltage=51.2)) == pytest.approx(192.0)


def test_a_bundle_of_unknown_voltage_is_unknown():
    assert isinstance(BASIS.ampacity(leg(21.1506, bundle=2, nominal_voltage=None)), Unknown)
    assert amps(leg(21.1506, nominal_voltage=None)) == pytest.approx(160.0)


def test_engine_space_and_bundle_together():
    # 160 × 0.85 × 0.6 = 81.6
    found = leg(21.1506, engine_space=True, bundle=2, nominal_voltage=51.2)
    assert amps(found) == pytest.approx(81.6)
