"""Banks are sums of batteries, and one known figure has a band."""

from __future__ import annotations

import pytest

from coordination.errors import OutOfRange
from coordination.physics import batteries as b
from coordination.physics import stationary_batteries as stationary


def test_demo_banks(published):
    printed = [row["printed"] for row in published("lithium_banks")]
    one = b.cell_bank_resistance(0.25e-3, 8, 1, 1.2e-3)
    pair = [27.2, 27.2], [one, one]
    got = [
        one * 1e3,
        b.short_circuit_current(27.2, one),
        b.parallel_current(*pair),
        b.short_circuit_current(b.series_emf(pair[0]), b.series_sum(pair[1])),
        b.cell_bank_resistance(0.2e-3, 4, 1, 0.4e-3) * 1e3,
    ]
    assert got == pytest.approx(printed, rel=1e-9)


def test_unequal_strings():
    # Hand calculation: 13.6/4 mΩ = 3400 A, 13.2/6 mΩ = 2200 A; R = 2.4 mΩ; E = 5600 × 2.4 mΩ.
    emfs, resistances = [13.6, 13.2], [4e-3, 6e-3]
    assert b.parallel_current(emfs, resistances) == pytest.approx(5600.0)
    assert b.parallel_resistance(resistances) == pytest.approx(2.4e-3)
    assert b.parallel_emf(emfs, resistances) == pytest.approx(13.44)


def test_band_of_one_known_resistance():
    # 1.2 mΩ: 1.02 ... 1.92 mΩ by hand (-15 %, +60 %).
    assert b.resistance_band_low(1.2e-3) == pytest.approx(1.02e-3)
    assert b.resistance_band_high(1.2e-3) == pytest.approx(1.92e-3)


def test_stationary_peak_is_above_steady():
    # By hand: 110 / (0.9 × 50 + 5) mΩ = 2200 A; 0.95 × 110 / 55 mΩ = 1900 A.
    assert stationary.stationary_peak_current(110.0, 0.050, 0.005) == pytest.approx(2200.0)
    assert stationary.stationary_steady_current(110.0, 0.050, 0.005) == pytest.approx(1900.0)


@pytest.mark.parametrize(
    ("emfs", "resistances"),
    [([], []), ([12.0], []), ([12.0], [0.01, 0.01]), ([12.0, 12.0, 12.0, 12.0], [0.01, 0.01]),
     ([12.0], [0.0]), ([12.0], [float("nan")]), ([-1.0], [0.01])],
)
def test_impossible_banks(emfs, resistances):
    with pytest.raises(OutOfRange):
        b.parallel_current(emfs, resistances)


@pytest.mark.parametrize("resistance", [0.0, -1e-3, float("nan"), float("inf")])
def test_no_infinite_fault_current(resistance):
    with pytest.raises(OutOfRange, match="resistance"):
        b.short_circuit_current(13.6, resistance)


def test_measurement_must_be_a_drop_under_more_load():
    with pytest.raises(OutOfRange, match="voltage_step"):
        b.measured_resistance(26.0, 0.0, 26.1, 100.0)
    with pytest.raises(OutOfRange, match="current_step"):
        b.measured_resistance(26.0, 100.0, 25.9, 100.0)
