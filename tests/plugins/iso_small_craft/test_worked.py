"""Worked examples: the standard's own formula beside copper, and sums over a whole boat."""

from __future__ import annotations

from pathlib import Path

import fusewright_iso_small_craft
import pytest
from fusewright_iso_small_craft.iso_drop import CONSTANT, iso_drop
from fusewright_iso_small_craft.tables import ampacity

from coordination.testing.run import findings_of

SYSTEMS = Path(fusewright_iso_small_craft.__path__[0]) / "cases" / "systems"
COPPER_20C = 0.017241e-6  # Ω·m, annealed copper at 20 °C, IEC 60028:1925


def test_a_published_example_of_the_formula():
    """1.6 A, 22 m both ways, 1.5 mm²: 0.38 V printed; 0.0164 × 1.6 × 22 / 1.5 = 0.38485."""
    assert iso_drop(1.6, 22.0, 1.5e-6) == pytest.approx(0.38485, abs=5e-6)
    # With copper at 20 °C it is 0.017241 × 1.6 × 22 / 1.5 = 0.40459 V: the formula shows less.
    assert iso_drop(1.6, 22.0, 1.5e-6) * COPPER_20C / CONSTANT == pytest.approx(0.40459, abs=5e-6)


def test_a_published_example_of_a_size():
    """10 A, 21 ft both ways, 12 V, 10 %: 16 AWG printed (1.309 mm²); 18 AWG is not enough by it.

    Here the metric size: S = 0.0164 × 10 × 6.4008 / 1.2 = 0.8748 mm², so 1 mm²; 18 AWG, 0.823 mm²,
    loses 0.0164 × 10 × 6.4008 / 0.823 = 1.2755 V, 16 AWG 0.8019 V.
    """
    length = 21 * 0.3048
    enough = [size.area for size in ampacity() if iso_drop(10.0, length, size.area) <= 1.2]
    assert enough[0] == pytest.approx(1e-6)
    assert iso_drop(10.0, length, 0.823e-6) == pytest.approx(1.2755, abs=5e-5)
    assert iso_drop(10.0, length, 1.309e-6) == pytest.approx(0.8019, abs=5e-5)


def test_the_constant_lies_5_percent_below_copper_at_20_degrees():
    share = CONSTANT / COPPER_20C
    assert share == pytest.approx(0.9512, abs=5e-5)


def drop_of(text: str):
    found = findings_of(f"packs: [iso_small_craft]\n{text}", only=["voltage-drop"]).findings
    return {finding.subject: finding.found for finding in found}


def steps_of(value):
    return {step.symbol: step.value for step in value.steps()}


def test_the_formula_stands_beside_what_is_truly_lost():
    """Day boat: U = 50 A × 20.209432 mΩ = 1.010472 V, E = 0.0164 × 50 × (2/16 + 6/10) = 0.5945."""
    steps = steps_of(drop_of((SYSTEMS / "day_boat.yaml").read_text("utf-8"))["winch"])
    assert steps["U"] == pytest.approx(1.010472, abs=5e-7)
    assert steps["E"] == pytest.approx(0.5945, abs=5e-6)
    assert steps["u"] == pytest.approx(1.010472 / 12, abs=5e-8)


def test_equal_runs_and_a_return_of_its_own():
    """Two runs of 10 mm², 3 m, back by one of 16 mm², 4 m; main cable 2 × 1 m of 16 mm².

    E = 0.0164 × 50 × (2/16 + 3/20 + 4/16) = 0.4305 V.
    """
    text = (SYSTEMS / "day_boat.yaml").read_text("utf-8").replace(
        "length: 3 m,", "length: 3 m, runs: 2, return: {cable: cable-16, length: 4 m},"
    )
    assert steps_of(drop_of(text)["winch"])["E"] == pytest.approx(0.4305, abs=5e-6)


def test_two_strings_share_the_current():
    """Lights draw 10 A from two equal packs: 5 A in each lead, 10 A in the light cable.

    E = 0.0164 × (5 × 2 × 1/10 + 10 × 2 × 1/2.5) = 0.0164 × 9 = 0.1476 V.
    """
    steps = steps_of(drop_of((SYSTEMS / "lithium_boat.yaml").read_text("utf-8"))["lights"])
    assert steps["E"] == pytest.approx(0.1476, abs=5e-6)


def test_the_report_shows_both_side_by_side():
    """Day boat, as above: 1.010472 V lost, 0.5945 V by the formula, of 12 V."""
    text = (SYSTEMS / "day_boat.yaml").read_text("utf-8")
    answer = findings_of(f"packs: [iso_small_craft]\n{text}")
    ((pack, section),) = answer.sections
    assert pack == "iso_small_craft"
    assert section.rows == (("winch", "normal", "1.01 V", "0.5945 V", "12 V"),)
    assert "below copper at 20 °C" in section.paragraphs[0]


def test_a_way_back_that_is_no_cable_has_no_formula():
    text = (SYSTEMS / "day_boat.yaml").read_text("utf-8").replace(
        "length: 3 m,", "length: 3 m, return: {resistance: 1 mΩ},"
    )
    ((_, section),) = findings_of(f"packs: [iso_small_craft]\n{text}").sections
    assert section.rows == (("winch", "normal", "0.6603 V", "not known", "12 V"),)
