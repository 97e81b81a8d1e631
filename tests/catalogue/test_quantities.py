"""Reading and showing quantities, held against pint, published tables and hand calculations."""

from __future__ import annotations

import math
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.quantities import Quantity, QuantityError, awg_area, parse, quantity, show, unit_of
from catalogue.units import SI_UNITS, UNITS

#: How pint writes each unit of the table, typed by hand; a new entry needs a new row here.
PINT = {
    "A": "ampere", "kA": "kiloampere", "mA": "milliampere", "μA": "microampere",
    "V": "volt", "mV": "millivolt", "kV": "kilovolt",
    "Ω": "ohm", "mΩ": "milliohm", "μΩ": "microohm", "kΩ": "kiloohm",
    "ohm": "ohm", "mohm": "milliohm", "μohm": "microohm",
    "Ω/m": "ohm/meter", "mΩ/m": "milliohm/meter", "μΩ/m": "microohm/meter",
    "Ω/km": "ohm/kilometer", "mΩ/km": "milliohm/kilometer", "ohm/m": "ohm/meter",
    "ohm/km": "ohm/kilometer", "mohm/m": "milliohm/meter", "Ω/ft": "ohm/foot",
    "mΩ/ft": "milliohm/foot", "ohm/ft": "ohm/foot", "mohm/ft": "milliohm/foot",
    "ohm/kft": "ohm/kilofoot", "Ω/kft": "ohm/kilofoot",
    "W": "watt", "kW": "kilowatt", "mW": "milliwatt",
    "Ah": "ampere*hour", "mAh": "milliampere*hour", "kAh": "kiloampere*hour", "A·s": "coulomb",
    "J": "joule", "kJ": "kilojoule", "Wh": "watt*hour", "kWh": "kilowatt*hour",
    "m": "meter", "mm": "millimeter", "cm": "centimeter", "km": "kilometer",
    "in": "inch", "ft": "foot", "yd": "yard",
    "mm²": "millimeter**2", "mm2": "millimeter**2", "cm²": "centimeter**2", "cm2": "centimeter**2",
    "m²": "meter**2", "m2": "meter**2", "cmil": "circular_mil",
    "kcmil": "kilocircular_mil", "MCM": "kilocircular_mil",
    "°C": "delta_degC", "degC": "delta_degC", "°F": "delta_degF", "degF": "delta_degF",
    "s": "second", "ms": "millisecond", "μs": "microsecond", "min": "minute", "h": "hour",
    "H": "henry", "mH": "millihenry", "μH": "microhenry", "nH": "nanohenry",
    "F": "farad", "mF": "millifarad", "μF": "microfarad", "nF": "nanofarad",
    "kg": "kilogram", "g": "gram", "lb": "pound", "%": "percent",
    "A²s": "ampere**2*second", "A2s": "ampere**2*second",
    "kA²s": "kiloampere**2*second", "kA2s": "kiloampere**2*second",
}  # fmt: skip

#: The SI unit of each dimension as pint writes it.
PINT_SI = {
    "current": "A", "voltage": "V", "resistance": "ohm", "resistance_per_length": "ohm/m",
    "power": "W", "charge": "A*s", "energy": "J", "length": "m", "area": "m**2",
    "temperature": "delta_degC", "time": "s", "inductance": "H", "capacitance": "F",
    "mass": "kg", "ratio": "", "let_through": "A**2*s",
}  # fmt: skip


def canonical(unit: str) -> str:
    """The entry that a spelling with another micro or ohm sign stands for."""
    unit = unit.replace("\u00b5", "μ").replace("\u2126", "Ω")
    return "μ" + unit[1:] if unit[:1] == "u" else unit


@pytest.fixture(scope="module")
def registry():
    import pint

    return pint.UnitRegistry()


def test_every_unit_of_the_table_is_listed_here():
    assert {canonical(unit) for unit in UNITS} == set(PINT)


@pytest.mark.parametrize("unit", sorted(UNITS))
def test_the_table_equals_pint(unit, registry):
    dimension, factor = UNITS[unit]
    expected = registry.Quantity(1.0, PINT[canonical(unit)]).to(PINT_SI[dimension]).magnitude
    assert factor == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("unit", sorted(unit for unit in UNITS if UNITS[unit][0] != "temperature"))
def test_a_unit_reads_as_the_table_says(unit):
    dimension, factor = UNITS[unit]
    assert parse(f"2.5 {unit}", dimension) == pytest.approx(2.5 * factor, rel=1e-15)
    assert parse(f"2.5{unit}", dimension) == parse(f"2.5 {unit}", dimension)


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
        ("1 kA²s", "let_through", 1e6),
        ("0.91", "factor", 0.91),
        ("91 %", "factor", 0.91),
        ("90 %", "ratio", 0.9),
        # Beyond the table, by pint: definitions of the mile (1609.344 m) and the coulomb.
        ("1 mile", "length", 1609.344),
        ("2 coulomb", "charge", 2.0),
        ("2 kA^2*s", "let_through", 2e6),
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


@pytest.mark.parametrize(
    ("value", "unit", "shown"),
    [
        (12_100.0, "A", "12.1 kA"),
        (0.0027, "Ω", "2.70 mΩ"),
        (28.8, "V", "28.8 V"),
        (0.12, "m", "120 mm"),
        (1_322_500.0, "A²s", "1.32 kA²s"),
        (2.1e6, "A²s", "2.10 kA²s"),
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


def test_the_usual_units_need_neither_pint_nor_matching():
    code = (
        "import sys; from catalogue.quantities import parse, show; "
        "parse('3 mΩ', 'resistance'), parse('4/0 AWG', 'area'), parse('3/8 in', 'length'), "
        "show(3.0, 'A', '3 A'); "
        "sys.exit(sum(name in sys.modules for name in ('pint', 'rapidfuzz', 'numpy', 'decimal')))"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
