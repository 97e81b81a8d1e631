"""The units in the docstrings are true: read, executed through pint, and tried in another system.

Three questions to every public function of every physics module: does the docstring name each
argument with its unit in the house's order; does an example in other units come out right; and do
the units alone fit together (every base unit stretched, the result must stretch as its unit says)?
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from decimal import Decimal
from pathlib import Path

import pint
import pytest
import yaml

import coordination.physics

UNITS = pint.UnitRegistry()
EXAMPLES = yaml.safe_load(
    Path(__file__).with_name("unit_examples.yaml").read_text(encoding="utf-8")
)
#: Modules that hold no equation: the doors, and the names of sources.
WITHOUT_EQUATIONS = {"guards", "sources"}
ARGUMENT = re.compile(r"^(\w+)\s+-- (.+) \[([^\[\]]+)\]$")
#: Functions whose equation holds a constant with a unit, so that it is true in SI only.
CONSTANTS = {
    "conductors.awg_diameter": "inches",
    "conductors.awg_area": "inches",
    "conductors.nominal_resistance_limit": "copper's resistivity",
    "conductors.maximum_resistance_per_length": "tables in mm² and ohm/km",
    "conductors.outside_diameter": "insulation thicknesses",
    "class_limits.class_limit": "tables in mm² and ohm/km",
    "inductance.touching_spacing": "insulation thicknesses",
    "inductance.inductance_per_length": "magnetic constant",
    "ampacity.film_coefficient": "film constants",
    "ampacity.surface_rise": "film constants",
    "ampacity.insulation_resistance": "thermal resistivity",
    "ampacity.conductor_rise": "film constants",
    "ampacity.allowed_heat": "film constants",
    "ampacity.pair_ampacity": "film constants",
    "busbars.bar_force": "magnetic constant",
    "adiabatic.k_factor": "copper's heat capacity and resistivity",
    "adiabatic.temperature_after": "copper's heat capacity and resistivity",
    "adiabatic.adiabatic_current": "the constant 226",
    "adiabatic.icea_limit": "circular mils",
    "overload.warming_time": "copper's heat capacity and resistivity",
    "fusing.preece_current": "inches",
    "fusing.onderdonk_current": "circular mils",
    "busbars.bar_resistance": "copper's resistivity",
    "busbars.empirical_current": "millimetres",
    "busbars.bar_current": "millimetres",
    "busbars.bar_heat": "film constants in mm",
}
#: Stretches of the base units, unlike each other; temperatures keep their degrees.
STRETCH = {"[length]": 1.3, "[mass]": 2.1, "[time]": 0.7, "[current]": 1.9, "[temperature]": 1.0}


def _functions():
    for found in pkgutil.iter_modules(coordination.physics.__path__):
        if found.name in WITHOUT_EQUATIONS:
            continue
        module = importlib.import_module(f"coordination.physics.{found.name}")
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_"):
                yield f"{found.name}.{name}", function


FUNCTIONS = dict(_functions())
every_function = pytest.mark.parametrize("name", sorted(FUNCTIONS))


def units_of(function):
    """Bracket text by argument name, in the docstring's order; the result's is under `gives`."""
    lines = inspect.getdoc(function).splitlines()
    return {found[1]: found[3] for line in lines if (found := ARGUMENT.match(line))}


def quantity(text):
    number, unit = text.split(" ", 1)
    return UNITS.Quantity(float(number), unit)


def plain(value, bracket):
    """An example's value as the plain SI float (or word, or list) that the bracket asks for."""
    if bracket == "text":
        return value
    if bracket.endswith(", each"):
        return [plain(item, bracket.removesuffix(", each")) for item in value]
    return quantity(value).to(bracket).magnitude


def half_digit(text):
    return 0.5 * 10.0 ** int(Decimal(text.split(" ", 1)[0]).as_tuple().exponent)


@every_function
def test_docstring_names_every_argument_in_order(name):
    function = FUNCTIONS[name]
    named = list(units_of(function))
    assert named == [*inspect.signature(function).parameters, "gives"]
    for bracket in units_of(function).values():
        unit = bracket.removesuffix(", each")
        assert unit in {"text", "1"} or UNITS.Unit(unit)


@every_function
def test_docstring_has_the_house_order(name):
    doc = inspect.getdoc(FUNCTIONS[name])
    lines = doc.splitlines()
    assert lines[0].endswith("."), "the first line is one sentence"
    assert lines[1] == "", "a blank line after the sentence"
    assert lines[2], "the formula"
    marks = ["gives ", "Raises OutOfRange", "Holds for", "Source: ", ">>> "]
    places = [doc.find(f"\n{mark}") for mark in marks]
    assert places[0] > 0
    assert places[3] > 0, "a source"
    assert places[4] > 0, "an example"
    found = [place for place in places if place > 0]
    assert found == sorted(found)


@every_function
def test_example_in_other_units(name):
    function, example = FUNCTIONS[name], EXAMPLES.get(name)
    assert example is not None, f"add a worked example of {name} to unit_examples.yaml"
    assert example["origin"]
    brackets = units_of(function)
    arguments = {key: plain(value, brackets[key]) for key, value in example["with"].items()}
    result = UNITS.Quantity(function(**arguments), brackets["gives"])
    wanted = quantity(example["gives"])
    assert result.check(wanted.dimensionality)
    got = result.to(wanted.units).magnitude
    assert got == pytest.approx(wanted.magnitude, abs=1.0001 * half_digit(example["gives"]))


@every_function
def test_example_is_in_other_units_indeed(name):
    brackets = units_of(FUNCTIONS[name])
    for key, value in EXAMPLES[name]["with"].items():
        if brackets[key] == "text":
            continue
        for item in value if isinstance(value, list) else [value]:
            assert item.split(" ", 1)[1] != brackets[key].removesuffix(", each"), (name, key)


def stretch(bracket):
    """How a number in this unit grows when the base units are stretched."""
    if bracket in {"text", "1", "degC"}:
        return 1.0
    factor = 1.0
    for base, power in UNITS.Unit(bracket.removesuffix(", each")).dimensionality.items():
        factor *= STRETCH[base] ** power
    return factor


def fits_together(function, arguments):
    """Whether the result stretches with its arguments exactly as the brackets say."""
    brackets = units_of(function)
    stretched = {}
    for key, value in arguments.items():
        factor = stretch(brackets[key])
        if isinstance(value, str):
            stretched[key] = value
        else:
            many = isinstance(value, list)
            stretched[key] = [item * factor for item in value] if many else value * factor
    before, after = function(**arguments), function(**stretched)
    if after is None:
        return False
    return after == pytest.approx(before * stretch(brackets["gives"]), rel=1e-9)


@every_function
def test_units_fit_together(name):
    function, brackets = FUNCTIONS[name], units_of(FUNCTIONS[name])
    example = EXAMPLES[name]["with"]
    arguments = {key: plain(value, brackets[key]) for key, value in example.items()}
    assert fits_together(function, arguments) == (name not in CONSTANTS)


def test_the_check_notices_a_wrong_bracket():
    def area(width: float, thickness: float) -> float:
        """Section.

        w t

        width     -- w [m]
        thickness -- t [m]
        gives     -- area [m]
        """
        return width * thickness

    assert not fits_together(area, {"width": 0.03, "thickness": 0.005})


def test_lists_name_living_functions_only():
    assert set(CONSTANTS) <= set(FUNCTIONS)
    assert set(EXAMPLES) == set(FUNCTIONS)
