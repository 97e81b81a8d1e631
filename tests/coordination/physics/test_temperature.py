"""Ambient factors and load temperatures."""

from __future__ import annotations

import pytest

from coordination.errors import OutOfRange
from coordination.physics import temperature as t

#: The published factor that the square-root law does not give: (printed, by the law).
DISAGREES = {("33 CFR 183.425 note 1", 200.0): (1.0, 0.939)}


@pytest.mark.published("ambient_factors")
def test_ambient_factor(row):
    got = t.ambient_factor(row["insulation_c"], row["ambient_c"], row["reference_c"])
    key = (row.text("table"), row["insulation_c"])
    if key in DISAGREES:
        printed, by_law = DISAGREES[key]
        assert (row["factor"], round(got, 3)) == (printed, by_law), row
    else:
        # The factors are printed to 0.01; one (105 °C at 50 °C, printed 0.85) is 0.856 by the law.
        assert got == pytest.approx(row["factor"], abs=0.0065), row


def test_no_current_left_where_the_air_is_as_hot():
    assert t.ambient_factor(70.0, 70.0, 30.0) == 0.0
    assert t.ambient_factor(70.0, 95.0, 30.0) == 0.0


def test_full_load_reaches_the_insulation_temperature():
    # By hand, in air of 50 °C: 0.7071 of the ampacity at 30 °C brings PVC back to 70 °C.
    assert t.load_temperature(70.71, 100.0, 50.0, 70.0, 30.0) == pytest.approx(70.0, abs=0.01)
    # With the ampacity already corrected to the ambient, full load is the limit itself.
    assert t.load_temperature(81.0, 81.0, 50.0, 90.0, 50.0) == pytest.approx(90.0)


def test_conventional_overload():
    """At 1.45 of its ampacity PVC of 70 °C comes to 114 °C, XLPE of 90 °C to 156 °C (by hand)."""
    assert t.load_temperature(1.45, 1.0, 30.0, 70.0, 30.0) == pytest.approx(114.1, abs=0.05)
    assert t.load_temperature(1.45, 1.0, 30.0, 90.0, 30.0) == pytest.approx(156.15, abs=0.05)


@pytest.mark.parametrize("rated", [30.0, 20.0, float("nan")])
def test_reference_as_hot_as_the_insulation(rated):
    with pytest.raises(OutOfRange, match="insulation_temperature"):
        t.load_temperature(10.0, 100.0, 20.0, rated, 30.0)
    with pytest.raises(OutOfRange, match="insulation_temperature"):
        t.ambient_factor(rated, 20.0, 30.0)


def test_no_ampacity_no_temperature():
    with pytest.raises(OutOfRange, match="ampacity"):
        t.load_temperature(10.0, 0.0, 30.0, 90.0, 30.0)
