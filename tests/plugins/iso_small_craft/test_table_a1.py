"""The ampacity basis: sizes, columns, engine space, warm air, bundles; all sums by hand."""

from __future__ import annotations

import pytest
from fusewright_iso_small_craft.table_a1 import BASIS, bundled_share

from coordination.rules import Source, Unknown
from coordination.testing import a_leg

FILE = Source("system file")


def leg(mm2=None, rated=105.0, air=30.0, **changes):
    return a_leg(mm2 and mm2 * 1e-6, rated, air, **changes)


def amps(installation):
    return BASIS.ampacity(installation).value


@pytest.mark.parametrize(("mm2", "row"), [
    (0.75, 16), (1, 20), (1.5, 25), (2.5, 35), (4, 45), (6, 60), (10, 90), (16, 130), (25, 170),
    (35, 210), (50, 270), (70, 330), (95, 390), (120, 450), (150, 475),   # listed: exactly
    (0.823, 16), (1.309, 20), (2.081, 25), (3.309, 35), (5.261, 45), (8.366, 60), (13.30, 90),
    (21.15, 130), (33.63, 170), (53.48, 270), (67.43, 270), (85.03, 330), (107.2, 390),  # gauges
    (0.9999, 16), (9.99, 60),          # a hair short of a row is not that row
])  # fmt: skip
def test_the_largest_listed_size_that_is_no_larger_counts(mm2, row):
    assert amps(leg(mm2)) == pytest.approx(row)


@pytest.mark.parametrize(("rated", "row"), [
    (60, 40), (69, 40), (70, 65), (75, 65), (84, 65), (85, 70), (90, 70), (104, 70), (105, 90),
    (110, 90), (125, 100), (150, 100), (200, 120), (250, 120),
])  # fmt: skip
def test_the_column_does_not_exceed_the_cable_s_rating(rated, row):
    """10 mm² in every column of the table."""
    assert amps(leg(10, float(rated))) == pytest.approx(row)


@pytest.mark.parametrize(("mm2", "rated"), [(0.5, 105), (0.74, 105), (151, 105), (240, 105),
                                            (10, 59)])  # fmt: skip
def test_outside_the_table_nothing_is_known(mm2, rated):
    found = BASIS.ampacity(leg(mm2, float(rated)))
    assert isinstance(found, Unknown)
    assert "Table A.1" in found.missing[0]


def test_what_is_not_stated_is_not_known():
    assert BASIS.ampacity(leg()).missing == ("area",)
    bare = leg(10, insulation_temperature=Unknown("rating", ("insulation_temperature",)))
    assert BASIS.ampacity(bare).missing == ("insulation_temperature",)
    airless = leg(10, ambient=Unknown("air", ("ambient",)))
    assert BASIS.ampacity(airless).missing == ("ambient",)


@pytest.mark.parametrize(("rated", "found"), [
    (70, 48.75), (75, 48.75), (85, 57.4), (90, 57.4), (105, 77.4), (125, 89.0), (200, 120.0),
])  # fmt: skip
def test_an_engine_space_takes_its_share(rated, found):
    """65 × 0.75, 70 × 0.82, 90 × 0.86, 100 × 0.89, 120 × 1."""
    assert amps(leg(10, float(rated), engine_space=True)) == pytest.approx(found)
    assert amps(leg(10, float(rated), air=60.0, engine_space=True)) == pytest.approx(found)


def test_60_degree_insulation_has_no_business_in_an_engine_space():
    found = BASIS.ampacity(leg(10, 60.0, engine_space=True))
    assert isinstance(found, Unknown)
    assert "not permitted in engine spaces" in found.missing[0]


@pytest.mark.parametrize(("air", "found"), [(20.0, 90.0), (30.0, 90.0), (30.1, 77.4), (50.0, 77.4)])
def test_warm_air_elsewhere_takes_the_same_share(air, found):
    assert amps(leg(10, air=air)) == pytest.approx(found)


@pytest.mark.parametrize(("air", "engine"), [(50.1, False), (60.1, True)])
def test_hotter_air_is_not_in_the_table(air, engine):
    assert isinstance(BASIS.ampacity(leg(10, air=air, engine_space=engine)), Unknown)


@pytest.mark.parametrize(("bundle", "runs", "found"), [
    (1, 1, 90.0),                      # two conductors
    (2, 1, 63.0), (3, 1, 63.0),        # 4 and 6: × 0.7
    (4, 1, 54.0), (12, 1, 54.0),       # 8 and 24: × 0.6
    (13, 1, 45.0),                     # 26: × 0.5
    (1, 2, 126.0),                     # two runs, 4 conductors: 2 × 90 × 0.7
])  # fmt: skip
def test_conductors_together(bundle, runs, found):
    assert amps(leg(10, bundle=bundle, runs=runs)) == pytest.approx(found)


def test_shares_by_number():
    assert [bundled_share(n) for n in (1, 3, 4, 6, 7, 24, 25)] == [1, 1, 0.7, 0.7, 0.6, 0.6, 0.5]


def test_engine_space_and_bundle_together():
    # 90 × 0.86 × 0.7 = 54.18
    assert amps(leg(10, bundle=2, engine_space=True)) == pytest.approx(54.18)


def test_every_figure_is_marked_as_from_memory():
    steps = [*BASIS.ampacity(leg(10, bundle=2, engine_space=True)).steps()]
    documents = [step.source for step in steps if step.source and step.source != FILE]
    assert documents
    assert not any(source.read for source in documents)
