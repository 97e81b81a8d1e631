"""What a fault's heat does to copper, by the three published forms."""

from __future__ import annotations

from math import inf, log, sqrt

import pytest

from coordination.errors import OutOfRange
from coordination.physics import adiabatic as ad


@pytest.mark.published("k_factors")
def test_k_factor(row):
    """Tables round k to whole numbers: within 0.7 % of the equation, mostly half a unit."""
    k = ad.k_factor(row["initial_c"], row["final_c"]) / 1e6
    assert k == pytest.approx(row["k"], abs=0.61), row
    assert k == pytest.approx(row["k"], rel=0.007), row


@pytest.mark.published("withstand_energy")
def test_withstand_energy(row):
    limit = ad.adiabatic_limit(row["size_mm2"] * 1e-6, row["k"] * 1e6) / 1e6
    # Some printed values are cut, not rounded: 0.029756 became 0.0297.
    digit = 2.001 * row.half_digit("limit_million_a2s")
    assert limit == pytest.approx(row["limit_million_a2s"], abs=digit)


def test_short_circuit_constants(published):
    iec, icea, onderdonk = (row["constant"] for row in published("short_circuit_constants"))
    assert sqrt(ad.COPPER_CONSTANT) / 1e6 == pytest.approx(iec, abs=0.5)
    # The North American constant as a K: sqrt(0.0297 log10(e)) × 1973.525.
    ratio = ad.icea_limit(1e-6, 90.0, 250.0)
    assert sqrt(ratio / log((250 + 234) / (90 + 234))) == pytest.approx(icea, abs=0.05)
    assert onderdonk == 288.7


def test_times_to_the_limit():
    """16 mm² XLPE at 2232 A: 1.05 s; 2.5 mm² PVC at 432 A: 0.443 s (arithmetic by hand)."""
    xlpe, pvc = ad.adiabatic_limit(16e-6, 143e6), ad.adiabatic_limit(2.5e-6, 115e6)
    assert ad.time_to_limit(xlpe, 2232.0) == pytest.approx(1.05, abs=5e-3)
    assert ad.time_to_limit(pvc, 432.0) == pytest.approx(0.443, abs=5e-4)


def test_forms_agree():
    """IEC 60949 rounds its constant up to 226, by 0.15 %; the North American one is 0.7 % lower."""
    k = ad.k_factor(75.0, 150.0) * 10e-6
    current = ad.adiabatic_current(10e-6, 1.0, 75.0, 150.0)
    assert current == pytest.approx(k * 226 / 225.67, rel=1e-4)
    assert 0.985 < ad.icea_limit(10e-6, 75.0, 150.0) / k**2 < 0.99


def test_temperature_after_nothing_and_too_much():
    assert ad.temperature_after(90.0, 0.0, 10e-6) == pytest.approx(90.0)
    assert ad.temperature_after(90.0, 1e12, 10e-6) == inf
    # By hand: k from 20 to 1083 °C is 225.67 sqrt(ln(1317.5 / 254.5)) = 289.4 A·s^0.5/mm².
    just_below, just_above = (289.3e6 * 1e-6) ** 2, (289.5e6 * 1e-6) ** 2
    assert ad.temperature_after(20.0, just_below, 1e-6) < 1083.0
    assert ad.temperature_after(20.0, just_above, 1e-6) == inf


@pytest.mark.parametrize(("initial", "final"), [(90, 90), (250, 90), (-100, 90), (90, 1100)])
def test_no_heating(initial, final):
    with pytest.raises(OutOfRange):
        ad.k_factor(initial, final)


@pytest.mark.parametrize(
    ("insulation", "area", "final"),
    [
        (60.0, 50e-6, 150.0),  # NFPA 70 (NEC) 2023, Table 240.92(B): thermoplastic, 150 °C
        (70.0, 300e-6, 160.0),  # IEC 60364-4-43 Table 43A: PVC up to 300 mm², 160 °C
        (70.0, 301e-6, 140.0),  # and above, 140 °C
        (90.0, 50e-6, 160.0),
        (105.0, 50e-6, 150.0),  # NFPA 70 (NEC) 2023, Table 240.92(B)
    ],
)
def test_lowest_final_temperature(insulation, area, final):
    assert ad.lowest_final_temperature(insulation, area) == final


def test_no_final_temperature_is_published_above_105():
    with pytest.raises(OutOfRange):
        ad.lowest_final_temperature(105.1, 50e-6)
