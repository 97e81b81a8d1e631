"""The table of usual units, held against pint and the definitions."""

from __future__ import annotations

import subprocess
import sys

import pytest

from catalogue.quantities import parse
from catalogue.units import UNITS

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
    "Hz": "hertz", "kg": "kilogram", "g": "gram", "lb": "pound", "%": "percent",
    "A²s": "ampere**2*second", "A2s": "ampere**2*second",
}  # fmt: skip
#: The SI unit of each dimension as pint writes it.
PINT_SI = {
    "current": "A", "voltage": "V", "resistance": "ohm", "resistance_per_length": "ohm/m",
    "power": "W", "charge": "A*s", "energy": "J", "length": "m", "area": "m**2",
    "temperature": "delta_degC", "time": "s", "inductance": "H", "capacitance": "F",
    "frequency": "hertz", "mass": "kg", "ratio": "", "let_through": "A**2*s",
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


def test_the_usual_units_need_neither_pint_nor_matching():
    code = (
        "import sys; from catalogue.quantities import parse, show; "
        "parse('3 mΩ', 'resistance'), parse('4/0 AWG', 'area'), parse('3/8 in', 'length'), "
        "show(3.0, 'A', '3 A'); "
        "sys.exit(sum(name in sys.modules for name in ('pint', 'rapidfuzz', 'numpy', 'decimal')))"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
