"""What stands on a sheet: the devices of the path, cables, load, faults, and what must pass."""

from __future__ import annotations

from collections.abc import Callable
from math import log, sqrt
from typing import Any

import pytest

from coordination.charts import Chart, chart_of, path_of
from coordination.charts.paths import deepest, names_of, worst_pair

from .conftest import WHEN


def devices(chart: Chart) -> list[str]:
    return [curve.label[0] for curve in chart.curves if curve.kind == "device"]


def test_a_path_goes_from_what_was_named_to_every_battery(launch: dict[str, Any]) -> None:
    path = path_of(launch["normal"], ("inverter fuse",))
    assert [each.name for each in path.devices] == [
        "inverter fuse", "main fuse", "pack 1 fuse", "pack 2 fuse",
    ]  # fmt: skip
    assert path.device.name == "inverter fuse"
    assert {"inverter cable", "main switch"} <= {each.name for each in path.elements}


@pytest.mark.parametrize("name", ["inverter feed", "inverter", "inverter cable", "inverter fuse"])
def test_circuit_device_cable_and_equipment_name_the_same_path(
    name: str, launch: dict[str, Any]
) -> None:
    study = launch["normal"]
    wanted = {each.name for each in path_of(study, ("inverter fuse",)).elements}
    path = path_of(study, (name,))
    assert {each.name for each in path.elements} == wanted
    assert path.device.name == "inverter fuse"


def test_a_battery_that_is_out_has_no_device_on_the_sheet(chart: Callable[..., Chart]) -> None:
    assert devices(chart("lamps", condition="one pack out")) == [
        "lamp fuse", "main fuse", "pack 1 fuse",
    ]  # fmt: skip


def test_devices_that_promise_the_same_are_drawn_once_at_their_share(
    chart: Callable[..., Chart],
) -> None:
    """Two equal packs each carry half, so 405 A of a pack fuse are 810 A of the inverter's."""
    drawn = chart("inverter")
    assert devices(drawn) == ["inverter fuse", "main fuse", "pack 1 fuse, pack 2 fuse"]
    packs = drawn.curves[2]
    assert "carries 50%" in packs.label
    assert packs.slowest[0].points[0] == (pytest.approx(810), 1800)


def test_load_and_faults_of_the_axis_device_are_marked(chart: Callable[..., Chart]) -> None:
    """Load 3000 W / 0.9 / 22 V = 151.5 A. Largest fault, in mΩ with 17.241 Ω·mm²/km:

    pack 2.7 + lead 2 × 0.5 × 0.2463 = 2.9463, two of them 1.4731; main 2 × 1.2 × 0.18148 = 0.43556;
    27.2 V / 1.9087 mΩ = 14 251 A.
    """
    marks = {mark.label.split(" ")[0]: mark.current for mark in chart("inverter").marks}
    assert marks["load"] == pytest.approx(3000 / 0.9 / 22)
    assert marks["max"] == pytest.approx(14_251, rel=2e-4)
    assert marks["min"] < marks["max"]


def test_a_cable_bears_k_squared_s_squared(chart: Callable[..., Chart]) -> None:
    """2.5 mm² from 31.5 °C (6 A on 105 °C insulation in 30 °C) to 150 °C."""
    curve = next(each for each in chart("lamps").curves if each.label[0] == "lamp cable bears")
    initial = float(curve.label[1].split(", ")[1].split(" ")[0])
    constant = 3.45e6 * 254.5 / 1.7241e-8
    strength = sqrt(constant * log((234.5 + 150) / (234.5 + initial))) * 2.5e-6
    for current, time in curve.slowest[0].points:
        assert current * sqrt(time) == pytest.approx(strength, rel=5e-3)
    assert curve.slowest[0].points[-1][1] == pytest.approx(5.0)


def test_a_cable_whose_insulation_has_no_published_limit_is_noted(
    study_of: Callable[..., Any],
) -> None:
    old = "c-2.5: {kind: cable, area: 2.5 mm², stranding: class 5, insulation_temperature: 105 °C"
    study = study_of((old, old.replace("105", "125")))
    drawn = chart_of(study, path_of(study, ("lamps",)), WHEN)
    assert not any("lamp cable" in curve.label[0] for curve in drawn.curves)
    assert any("short_circuit_temperature" in note for note in drawn.notes)


def test_surges_starts_stalls_and_inrush_stand_where_they_flow(
    chart: Callable[..., Chart],
) -> None:
    """Inrush: 28.8 V; the loop of the largest fault, the cable's 2 × 1.5 × 0.2463, the 2 mΩ own."""
    winch = {spot.label: (spot.current, spot.time) for spot in chart("winch").spots}
    assert winch == {
        "start of winch: 240 A, 1 s": (240, 1), "stall of winch: 260 A, 10 s": (260, 10),
    }  # fmt: skip
    surge, inrush = chart("inverter").spots
    assert (surge.current, surge.time, surge.heat) == (325, 2, False)
    resistance = (1.4731 + 0.43556 + 0.7389 + 2) / 1000
    energy = 0.02 * 28.8**2 / (2 * resistance)
    assert inrush.heat
    assert inrush.current**2 * inrush.time == pytest.approx(energy, rel=1e-3)


def test_what_draws_nothing_in_a_condition_has_no_surge(study_of: Callable[..., Any]) -> None:
    study = study_of(("  one pack out: {", "  normal: {draw: {winch: 0 %}}\n  one pack out: {"))
    assert chart_of(study, path_of(study, ("winch",)), WHEN).spots == ()


def test_a_device_without_a_curve_is_noted_not_drawn(study_of: Callable[..., Any]) -> None:
    study = study_of(
        ("{fuse: fast-400, name: main fuse}", "{fuse: bare-400, name: main fuse}"),
        ("parts:\n  pack-24", "parts:\n  bare-400: {kind: fuse, rated_current: 400 A}\n  pack-24"),
    )  # fmt: skip
    drawn = chart_of(study, path_of(study, ("inverter",)), WHEN)
    assert "main fuse" not in devices(drawn)
    assert "main fuse has no curve: bare-400: curve" in drawn.notes


def test_the_facts_name_file_system_condition_axis_and_date(chart: Callable[..., Chart]) -> None:
    facts = dict(chart("lamps", condition="one pack out").facts)
    assert facts["System"] == "Chart launch"
    assert facts["File"].endswith("launch.yaml")
    assert facts["Condition"] == "one pack out"
    assert facts["Axis"] == "current through lamp fuse"
    assert facts["Date"] == "2026-03-01"


def test_without_a_name_the_worst_pair_is_drawn_else_the_deepest_chain(
    launch: dict[str, Any],
) -> None:
    """The breaker's slow side (2 s) lies far above the main fuse's fast side at a large fault."""
    assert worst_pair(launch["normal"]).device.name == "winch breaker"
    assert len(deepest(launch["normal"]).devices) == 4


def test_names_are_circuits_elements_and_equipment(launch: dict[str, Any]) -> None:
    names = names_of(launch["normal"])
    assert {"main feed", "main switch", "pack 1 lead/2", "winch"} <= set(names)
