"""How quantities are shown, and that what is shown reads back."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.quantities import parse, show
from catalogue.units import SI_UNITS


@pytest.mark.parametrize(
    ("value", "unit", "shown"),
    [
        (12_100.0, "A", "12.1 kA"),
        (0.0027, "Ω", "2.70 mΩ"),
        (28.8, "V", "28.8 V"),
        (0.12, "m", "120 mm"),
        (1_322_500.0, "A²s", "1.32 ×10⁶ A²s"),
        (2.1e6, "A²s", "2.10 ×10⁶ A²s"),
        (999.96, "A", "1.00 kA"),
        (999.4, "A", "999 A"),
        (0.0, "A", "0 A"),
        (0.0, "", "0"),
        (-5.5, "A", "-5.50 A"),
        (1e-10, "Ω", "0.000100 µΩ"),
        (35.0, "°C", "35 °C"),
        (66.25, "°C", "66.2 °C"),
        (0.05, "s", "50.0 ms"),
        (1800.0, "s", "30.0 min"),
        (7200.0, "s", "2.00 h"),
        (828_000.0, "A·s", "230 Ah"),
        (70e-6, "m²", "70.0 mm²"),
        (0.59, "", "0.590"),
        (0.000241, "Ω/m", "241 µΩ/m"),
        (45e-6, "H", "45.0 µH"),
        (0.02, "F", "20.0 mF"),
        (24.0, "kg", "24.0 kg"),
        (0.0042, "1/K", "0.00420 1/K"),
        (math.inf, "A", "unlimited"),
        (math.nan, "A", "undefined"),
    ],
)
def test_how_values_are_shown(value, unit, shown):
    assert show(value, unit) == shown


@pytest.mark.parametrize(
    ("value", "unit", "written", "shown"),
    [
        (0.12, "m", "120 mm", "120 mm"),
        (0.009525, "m", "12 in", "0.375 in"),
        (35.0, "°C", "95 °F", "95 °F"),
        (40.0, "°C", "95 °F", "104 °F"),
        (1800.0 * 3600, "A·s", "230 Ah", "1800 Ah"),
        (12_100.0, "A", "300 A", "12.1 kA"),
        (0.5, "V", "3 %", "500 mV"),
        (107.2e-6, "m²", "4/0 AWG", "107 mm²"),
        (5.0, "V", "rubbish", "5.00 V"),
    ],
)
def test_values_are_shown_in_the_unit_written(value, unit, written, shown):
    assert show(value, unit, written) == shown


@given(
    st.sampled_from(sorted(set(SI_UNITS) - {"temperature", "ratio", "factor", "let_through"})),
    st.floats(1e-9, 1e9),
)
def test_what_is_shown_reads_back(dimension, value):
    assert parse(show(value, SI_UNITS[dimension], digits=6), dimension) == pytest.approx(
        value, rel=1e-5
    )
