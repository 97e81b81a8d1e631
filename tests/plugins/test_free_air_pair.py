"""The ampacity basis of the pack: hand calculations, what each input does, what stays unknown.

Hand calculation for 70 mm², class 5 (0.272 mΩ/m at 20 °C), 105 °C insulation, 13.5 mm over it:
d = 1.13 × sqrt(4 × 70 / π) = 10.67 mm; R_th = 5 / (2 π) × ln(13.5 / 10.67) = 0.1874 K·m/W;
h = 0.29 / sqrt(0.0135) + 2.35 = 4.846; r = 0.272 × 339.5 / 254.5 = 0.3628 mΩ/m.
In 30 °C air 331.2 A make 331.2² × 0.3628 mΩ = 39.80 W/m; 39.80 × 0.1874 = 7.46 K across the
insulation; (39.80 / (π × 0.0135 × 4.846))^0.8 = 193.6^0.8 = 67.5 K at the surface; 75.0 K in all.
In 50 °C air 274.1 A make 27.26 W/m; 5.11 K + 132.6^0.8 = 49.9 K; 55.0 K in all.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from fusewright_fundamentals.free_air_pair import BASIS, NAME

from coordination.rules import DEFINITION, Derived, Installation, Unknown, given


def figure(value: float, unit: str) -> Derived:
    return given("figure", "x", value, unit, DEFINITION)


LEG = Installation(
    leg="positive",
    area=figure(70e-6, "m²"),
    insulation_temperature=figure(105.0, "°C"),
    resistance_20c_max=figure(0.272e-3, "Ω/m"),
    outside_diameter=figure(13.5e-3, "m"),
    ambient=figure(30.0, "°C"),
    engine_space=False,
    bundle=1,
    runs=1,
    sheathed=None,
    nominal_voltage=24.0,
)


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        ({}, 331.2),
        ({"ambient": figure(50.0, "°C")}, 274.1),
        # Three circuits bundled: 3^(-1/3) = 0.6934 of 331.2 A.
        ({"bundle": 3}, 229.6),
        # Two runs lie together: 2 × 2^(-1/3) = 1.5874 of 331.2 A.
        ({"runs": 2}, 525.7),
        # Two runs in each of three circuits: 2 × 6^(-1/3) = 1.1006 of 331.2 A.
        ({"bundle": 3, "runs": 2}, 364.5),
        # In a sheath three quarters are left.
        ({"sheathed": True}, 248.4),
        ({"sheathed": False}, 331.2),
        # Air as hot as the insulation may get: nothing is left.
        ({"ambient": figure(105.0, "°C")}, 0.0),
    ],
)
def test_by_hand(change: dict[str, Any], expected: float) -> None:
    found = BASIS.ampacity(replace(LEG, **change))
    assert isinstance(found, Derived)
    assert found.value == pytest.approx(expected, abs=0.15)
    assert found.unit == "A"


def test_never_above_published_copper_in_free_air() -> None:
    """Method F, two touching, XLPE 90 °C, 30 °C air: 310 A for 70 mm².

    Source: IEC 60364-5-52, Table B.52.12, read in a secondary copy.
    """
    leg = replace(LEG, insulation_temperature=figure(90.0, "°C"))
    found = BASIS.ampacity(leg)
    assert isinstance(found, Derived)
    assert 0.9 * 310 <= found.value <= 310


@pytest.mark.parametrize(
    "field",
    ["area", "insulation_temperature", "resistance_20c_max", "ambient"],
)
def test_anything_unknown_leaves_it_unknown(field: str) -> None:
    change: dict[str, Any] = {field: Unknown(field, (f"cable-x: {field}",))}
    found = BASIS.ampacity(replace(LEG, **change))
    assert isinstance(found, Unknown)
    assert found.missing == (f"cable-x: {field}",)


NOT_STATED = Unknown("diameter", ("cable-x: outside_diameter",))


def test_outside_diameter_not_stated_counts_as_the_conductors_own() -> None:
    """Bare: h = 0.29 / sqrt(0.010668) + 2.35 = 5.158; π × 0.010668 × 5.158 × 75^1.25 = 38.15 W/m.

    sqrt(38.15 / 0.36284e-3) = 324.3 A, less than the 331.2 A with the insulation it has.
    """
    found = BASIS.ampacity(replace(LEG, outside_diameter=NOT_STATED))
    assert isinstance(found, Derived)
    assert found.value == pytest.approx(324.3, abs=0.15)


@pytest.mark.parametrize("wall", [0.3e-3, 0.8e-3, 1.6e-3, 3e-3])
@pytest.mark.parametrize("area", [0.75e-6, 2.5e-6, 16e-6, 50e-6, 95e-6, 120e-6, 150e-6])
def test_any_ordinary_wall_bears_no_less_than_none(area: float, wall: float) -> None:
    conductor = 1.13 * (4 * area / 3.14159265) ** 0.5
    leg = replace(
        LEG, area=figure(area, "m²"), outside_diameter=figure(conductor + 2 * wall, "m")
    )
    walled = BASIS.ampacity(leg)
    bare = BASIS.ampacity(replace(leg, outside_diameter=NOT_STATED))
    assert isinstance(walled, Derived)
    assert isinstance(bare, Derived)
    assert bare.value <= walled.value


def test_outside_diameter_of_a_large_cable_is_needed() -> None:
    found = BASIS.ampacity(
        replace(LEG, area=figure(185e-6, "m²"), outside_diameter=NOT_STATED)
    )
    assert isinstance(found, Unknown)
    assert found.missing == ("cable-x: outside_diameter",)


@pytest.mark.parametrize(
    "change",
    [
        {"outside_diameter": figure(9e-3, "m")},  # thinner than its conductor
        {"area": figure(-1e-6, "m²")},
        {"ambient": figure(float("nan"), "°C")},
        {"bundle": 0},
        {"runs": -1},
    ],
)
def test_out_of_range_is_unknown(change: dict[str, Any]) -> None:
    assert isinstance(BASIS.ampacity(replace(LEG, **change)), Unknown)


def test_basis_stands_in_the_derivation_and_every_formula_uses_its_inputs() -> None:
    found = BASIS.ampacity(LEG)
    assert isinstance(found, Derived)
    assert NAME in found.quantity
    for step in found.steps():
        for item in step.inputs:
            assert item.symbol in step.formula
