"""Loop inductance and the rise of a fault current."""

from __future__ import annotations

import math

import pytest

from coordination.errors import OutOfRange
from coordination.physics import inductance as l


@pytest.mark.published("inductance_two_wire")
def test_two_round_wires(row):
    radius = l.conductor_radius(row["size_mm2"] * 1e-6)
    spacing = row["centre_distance_mm"] * 1e-3
    got = l.inductance_per_length(spacing, radius) * 1e6
    # The distance is printed to a tenth of a millimetre: dL = 0.4 × (0.05 mm / d).
    allowed = row.half_digit("inductance_uh_per_m") + 0.4 * 0.05 / row["centre_distance_mm"]
    assert got == pytest.approx(row["inductance_uh_per_m"], abs=allowed)


def test_design_formula():
    # 0.4 ln(d / r) + 0.1 µH/m at d / r = e: 0.5 µH/m by hand.
    assert l.inductance_per_length(math.e * 0.01, 0.01) == pytest.approx(0.5e-6)


def test_overlapping_conductors_are_refused():
    with pytest.raises(OutOfRange, match="two radii"):
        l.inductance_per_length(0.0099, 0.005)
    assert l.inductance_per_length(0.010, 0.005) == pytest.approx((0.4 * math.log(2) + 0.1) * 1e-6)


@pytest.mark.parametrize(("periods", "share"), [(1, 0.6321), (2, 0.8647), (3, 0.9502), (5, 0.9933)])
def test_rise(periods, share):
    """Textbook shares of the final value after whole time constants."""
    assert l.rising_current(1.0, periods * 2e-3, 2e-3) == pytest.approx(share, abs=5e-5)


def test_loop_without_inductance_rises_at_once():
    assert l.time_constant(0.0, 0.01) == 0.0
    assert l.rising_current(500.0, 1e-6, 0.0) == 500.0
    assert l.rising_current(500.0, 0.0, 0.0) == 0.0


def test_no_resistance_has_no_time_constant():
    with pytest.raises(OutOfRange, match="resistance"):
        l.time_constant(1e-6, 0.0)


@pytest.mark.parametrize("size", [1, 2.5, 6, 16, 25, 50, 95, 120, 300])
def test_default_spacing_touches(size):
    spacing = l.touching_spacing(size * 1e-6)
    assert spacing > 2 * l.conductor_radius(size * 1e-6)
    # Touching pairs lie between 0.42 and 0.72 µH/m whatever their size.
    got = l.inductance_per_length(spacing, l.conductor_radius(size * 1e-6)) * 1e6
    assert 0.42 < got < 0.72
