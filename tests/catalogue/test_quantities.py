"""Reading quantities, held against published tables and hand calculations."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.quantities import Quantity, QuantityError, awg_area, parse, quantity, unit_of
from catalogue.units import SI_UNITS


@pytest.mark.parametrize(
    ("text", "celsius"),
    [("35 °C", 35.0), ("-40 °F", -40.0), ("212 °F", 100.0), ("32 degF", 0.0), ("95 ℉", 35.0)],
)
def test_temperatures_stay_in_celsius(text, celsius):
    # Definitions: water freezes at 32 °F, boils at 212 °F; the scales meet at -40.
    assert parse(text.replace("℉", "°F"), "temperature") == pytest.approx(celsius, abs=1e-12)


#: ASTM B258 / NEC chapter 9 table 8 areas in circular mils (from memory, not read here; the
#: published rows agree with the formula to 0.1 %), and the diameters in inches of the same rows.
GAUGES = [
    ("4/0", 211_600, 0.46), ("3/0", 167_800, 0.40965), ("2/0", 133_100, 0.3648),
    ("1/0", 105_600, 0.32485), ("1", 83_690, 0.2893), ("2", 66_360, 0.25763),
    ("4", 41_740, 0.20431),
    ("6", 26_240, 0.16202), ("8", 16_510, 0.12849), ("10", 10_380, 0.10189), ("12", 6530, 0.0808),
    ("14", 4110, 0.06408), ("16", 2580, 0.05082), ("18", 1620, 0.0403), ("30", 100.5, 0.01002),
]  # fmt: skip


@pytest.mark.parametrize(("size", "cmil", "inches"), GAUGES)
def test_wire_gauges_are_those_of_the_printed_tables(size, cmil, inches):
    by_diameter = math.pi / 4 * (inches * 25.4e-3) ** 2
    assert parse(f"{size} AWG", "area") == pytest.approx(cmil * 5.067075e-10, rel=3e-3)
    assert awg_area(size) == pytest.approx(by_diameter, rel=3e-3)
    assert parse(f"{size}AWG", "area") == awg_area(size)


def test_the_largest_gauge_by_hand():
    # 0.46 in = 11.684 mm; π/4 × 11.684² = 107.219 mm²
    assert awg_area("4/0") * 1e6 == pytest.approx(107.219, abs=5e-4)


@pytest.mark.parametrize(
    "text",
    ["5/0 AWG", "0/0 AWG", "41 AWG", "-1 AWG", "4/1 AWG", "4.5 AWG", "00 AWG", "01 AWG"],
)
def test_no_such_gauge(text):
    with pytest.raises(QuantityError):
        parse(text, "area")


@pytest.mark.parametrize(
    ("text", "metres"),
    [
        ("3/8 in", 9.525e-3),
        ("1 1/2 in", 38.1e-3),
        ("1-1/2 in", 38.1e-3),
        ("1/4in", 6.35e-3),
        ("1/2 ft", 0.1524),
        ("7 in", 0.1778),
        ("72 in", 1.8288),
    ],
)
def test_fractions_of_an_inch_by_hand(text, metres):
    assert parse(text, "length") == pytest.approx(metres, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        ("1.2e3 A", "current", 1200.0),
        (".5 V", "voltage", 0.5),
        ("5. V", "voltage", 5.0),
        ("+3 A", "current", 3.0),
        ("−5 °C", "temperature", -5.0),
        ("3\u00a0A", "current", 3.0),
        ("3\u202fmm²", "area", 3e-6),
        ("-0 A", "current", 0.0),
        ("1.2e6 A²s", "let_through", 1.2e6),
        ("0.91", "factor", 0.91),
        ("91 %", "factor", 0.91),
        ("90 %", "ratio", 0.9),
        # Beyond the table, by pint: definitions of the mile (1609.344 m) and the coulomb.
        ("1 mile", "length", 1609.344),
        ("2 coulomb", "charge", 2.0),
        ("2e6 A^2*s", "let_through", 2e6),
        ("3 ohm/mile", "resistance_per_length", 3 / 1609.344),
        ("1 MW", "power", 1e6),
    ],
)
def test_what_is_accepted(text, dimension, value):
    found = parse(text, dimension)
    assert found == pytest.approx(value, rel=1e-12)
    assert math.copysign(1, found) == math.copysign(1, value)


@pytest.mark.parametrize(
    ("text", "dimension", "says"),
    [
        ("5 V", "length", "length wants metres, inches or feet"),
        ("5 V", "length", "not volts"),
        ("5 volts", "length", "not volts"),
        ("3", "length", "has no unit: length wants metres"),
        ("0", "current", "has no unit: current wants amperes"),
        ("0.9", "ratio", "has no unit: ratio wants per cent"),
        ("2,7 V", "voltage", "decimal comma"),
        ("2,7 V", "voltage", "write '2.7 V'"),
        ("1,500 A", "current", "'1500 A'"),
        ("5 ka", "current", "did you mean 5 kA?"),
        ("5 mv", "voltage", "did you mean 5 mV?"),
        ("4 awg", "area", "did you mean 4 AWG?"),
        ("00 AWG", "area", "write 2/0 AWG"),
        ("AWG 2", "area", "write 2 AWG"),
        ("#4", "area", "write 4 AWG"),
        ("2/0", "area", "write 2/0 AWG"),
        ("20 amps", "current", "did you mean 20 A?"),
        ("5 amps", "voltage", "not amperes"),
        ("3 mOhm", "resistance", "did you mean 3 mΩ?"),
        ("6'", "length", "did you mean 6 ft?"),
        ("6 ft 3 in", "length", "one is written 75 in"),
        ("30 deg C", "temperature", "did you mean 30 °C?"),
        ("4/0 AWG", "length", "not a wire gauge"),
        ("300 K", "temperature", "write 26.85 °C"),
        ("25 C", "temperature", "write 25 °C"),
        ("-300 °C", "temperature", "below absolute zero"),
        ("3/8 mm", "length", "fractions are for inches"),
        ("3/0 in", "length", "fractions are for inches"),
        ("1 500 A", "current", "two numbers"),
        ("nan A", "current", "not a number that"),
        (".inf", "voltage", "not a number that"),
        ("-Infinity V", "voltage", "not a number that"),
        ("1e308 A", "current", "too large"),
        ("1e308 kA", "current", "too large"),
        ("1e999999 A", "current", "too large"),
        ("1e-300 A", "current", "too small"),
        ("9" * 5000 + " A", "current", "too large"),
        ("", "current", "must begin with a number"),
        ("amperes", "current", "must begin with a number"),
        ("٣ A", "current", "must begin with a number"),
        ("0x10 A", "current", "no unit known here"),
        ("1_000 A", "current", "no unit known here"),
        ("5 A\x00", "current", "no unit known here"),
        ("5 \ud800", "current", "no unit known here"),
        ("5 m**9**9**9", "length", "no unit known here"),
        ("5 " + "m" * 100_000, "length", "no unit known here"),
        ("5 __import__('os')", "length", "no unit known here"),
        ("5 m", "area", "not a length"),
        ("5 A", "resistance_per_length", "resistance per length wants ohms"),
    ],
)
def test_what_is_refused_and_how(text, dimension, says):
    with pytest.raises(QuantityError) as caught:
        parse(text, dimension)
    assert says in f"{caught.value.message}; {caught.value.hint}"
    assert len(str(caught.value)) < 300
    assert str(caught.value).isprintable()


@given(st.text(max_size=40), st.sampled_from(sorted(SI_UNITS)))
def test_any_text_is_a_finite_number_or_a_clear_error(text, dimension):
    try:
        value = parse(text, dimension)
    except QuantityError as error:
        value = float(bool(error.message))
    assert math.isfinite(value)


def test_the_text_is_kept():
    assert quantity("120 mm", "length") == Quantity(0.12, "length", "120 mm")
    assert [unit_of(text) for text in ("3/8 in", "120 mm", "4/0 AWG", "x")] == ["in", "mm", "", ""]


@pytest.mark.parametrize("unit", ["kA²s", "kA2s", "kA^2s", "kA**2*s", "MA²s", "mA²s"])
def test_a_prefix_that_may_be_squared_or_not_is_refused(unit: str) -> None:
    # (kA)²s is 10⁶ A²s; sheets that list I²t in "kA²s" often mean 10³.
    with pytest.raises(QuantityError, match="read in two ways"):
        parse(f"90 {unit}", "let_through")
    if unit.startswith("k"):
        with pytest.raises(QuantityError, match="90e3 A²s or 90e6 A²s"):
            parse(f"90 {unit}", "let_through")
