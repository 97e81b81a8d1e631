"""Every figure of a schedule against a sum by hand; bench.yaml has the figures that go in."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from math import log
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from coordination.schedules import NAMES, Schedule
from coordination.schedules.facts import Facts, cell
from coordination.schedules.interrupting import rating_at
from coordination.trace import DEFINITION, Unknown, Value, given

Rows = Callable[..., Any]
MADE = date(2026, 3, 5)


def test_a_device_carries_its_rating_at_the_voltage_and_its_currents(row: Rows) -> None:
    """Largest: emergency, both packs, 27.2 V / (2 + 0.1) mΩ × 2 = 25.9 kA at the heater fuse.

    Least: 25.6 V / (4 + 0.2 + 0.1 + 0.1 + 0.2 + 1.4026 + 4.5902 mΩ) = 2.417 kA, one pack; copper at
    90 °C is (234.5 + 90) / 254.5 = 1.27505 times as resistive: 2 m × 0.55 mΩ/m and 3 m × 1.2 mΩ/m.
    Past its last point (1000 A, 10 s) it keeps its I²t: 10 s × (1000 / 2417)² = 1.71 s.
    """
    cells = row("devices", "heater fuse")
    assert cells["interrupts"] == "5 kA at 32 V"  # never the 10 kA at 14 V
    assert cells["voltage max"] == "28.8 V"
    assert cells["fault max"] == "25.9 kA"
    assert cells["margin"] == "0.193"  # 5 / 25.905
    assert cells["fault min"] == "2.42 kA"
    assert cells["clears in"] == "1.71 s"
    assert cells["load"] == "100 A"
    assert cells["upstream"] == "main fuse, link fuse"
    assert cells["distance"] == cells["sheathed"] == ""  # not in the file


def test_a_device_of_its_own_battery(row: Rows) -> None:
    """27.2 V / 2 mΩ = 13.6 kA; 20 kA / 13.6 kA = 1.47."""
    cells = row("devices", "main fuse")
    assert (cells["fault max"], cells["margin"]) == ("13.6 kA", "1.47")
    assert (cells["distance"], cells["sheathed"]) == ("120 mm", "yes")
    assert (cells["family"], cells["rated"], cells["rated DC"]) == ("class-t", "200 A", "58 V")


def test_a_rating_for_less_voltage_is_none(row: Rows, changed: Rows) -> None:
    path = changed(("{voltage: 32 V, current: 5 kA}", "{voltage: 28 V, current: 5 kA}"))
    cells = row("devices", "heater fuse", path=path)
    assert (cells["interrupts"], cells["margin"]) == ("none at 28.8 V", "")


def test_what_a_part_does_not_state_is_an_empty_box(row: Rows, changed: Rows) -> None:
    rows = "{voltage: 14 V, current: 10 kA}, {voltage: 32 V, current: 5 kA}"
    melts, clears = "[[200 A, 100 s], [1000 A, 1 s]]", "[[250 A, 1000 s], [1000 A, 10 s]]"
    ratings = f"interrupt_ratings: [{rows}],"
    curve = f"curve: {{min_melt: {melts}, max_clear: {clears}}},"
    path = changed((ratings, ""), (curve, ""), ("family: strip, ", ""))
    cells = row("devices", "heater fuse", path=path)
    assert cells["family"] == cells["interrupts"] == cells["margin"] == cells["clears in"] == ""
    assert cells["fault max"] == "25.9 kA"


def test_an_unknown_battery_leaves_currents_empty(row: Rows, changed: Rows) -> None:
    path = changed((", resistance: {min: 2 mΩ, max: 4 mΩ}", ""))
    cells = row("devices", "main fuse", path=path)
    assert cells["fault max"] == cells["margin"] == cells["fault min"] == cells["clears in"] == ""
    assert row("labels", "disconnect", "house switch", path=path)["text"] == (
        "house switch: 24 V DC nominal, available fault current ____, calculated 2026-03-05"
    )


def test_each_leg_has_its_own_figures(row: Rows) -> None:
    """Hot: 2 m × 0.55 × 1.27505 = 1.4026 mΩ and 3 m × 1.2 × 1.27505 = 4.5902 mΩ, at 100 A."""
    positive = row("cables", "heater cable", "positive")
    back = row("cables", "heater cable", "return")
    assert (positive["area"], positive["length"], positive["drop"]) == ("35 mm²", "2 m", "140 mV")
    assert (back["area"], back["length"], back["drop"]) == ("16.8 mm² (5 AWG)", "3 m", "459 mV")
    assert (positive["drop %"], back["drop %"]) == ("0.584 %", "1.91 %")  # of 24 V
    assert positive["guarded at from"] == "heater fuse"
    assert (positive["ambient"], positive["insulation"]) == ("35 °C", "90 °C")


def test_how_long_a_leg_bears_the_largest_fault(row: Rows) -> None:
    """(k S / I)², I = 27.2 V / (2.1 / 2 + 0.1 mΩ) = 23.65 kA, S = 16.77 mm² of 5 AWG,

    k = 226 √ln((250 + 234.5) / (T + 234.5)) from the temperature under load, 35 + 55 (100 / Iz)².
    """
    back = row("cables", "heater cable", "return")
    warm = 35 + 55 * (100 / float(back["ampacity"].split()[0])) ** 2
    factor = 226 * log(484.5 / (warm + 234.5)) ** 0.5
    expected = (factor * 16.77 / 23_652) ** 2
    number, unit = back["bears fault max for"].split()
    assert unit == "ms"
    assert float(number) / 1e3 == pytest.approx(expected, rel=0.01)
    # The verdict is about the weaker leg; of the other nothing is claimed.
    assert row("cables", "heater cable", "positive")["worst fault, borne"] == ""
    assert "of 250 °C" in back["worst fault, borne"]


def test_a_bare_battery_is_named_first(row: Rows, changed: Rows) -> None:
    path = changed(("- {fuse: fuse-200, name: main fuse, distance: 120 mm, sheathed: yes}",
                    "- {cable: cable-35, length: 1 m, name: bare cable}"))  # fmt: skip
    assert row("cables", "bare cable", "positive", path=path)["guarded at from"] == (
        "none towards pack"
    )


def test_loads_with_what_keeps_them_alive(row: Rows) -> None:
    """Pump: 240 W / 0.8 / 20 V = 15 A. The heater loses 599 mV in its legs, 20 in its fuse,
    23 + 11.5 + 10 mV on the way at 115 A and 100 A: 664 mV."""
    pump, heater = row("loads", "pump"), row("loads", "heater")
    assert (pump["power"], pump["current"], pump["least voltage"]) == ("240 W", "15.0 A", "20 V")
    assert (pump["at once"], pump["critical"]) == ("surge 60 A for 2 s", "yes")
    assert (heater["drop"], heater["drop allowed"]) == ("664 mV", "5 %")
    assert (pump["always on"], heater["always on"]) == ("yes", "no")  # ahead of, behind the switch
    assert (pump["dark on pack trip"], heater["dark on pack trip"]) == ("yes", "yes")


def test_a_converter_is_what_is_left_after_a_trip(row: Rows, changed: Rows) -> None:
    path = changed(
        ("circuits:", "converters:\n  dc-dc: {output_current: 10 A, output_voltage: 28 V,"
         " efficiency: 90 %, min_input_voltage: 24 V}\ncircuits:\n"
         "  in: {from: spare pack, to: dc-dc.input, parts: [{fuse: fuse-200, name: i}]}\n"
         "  out: {from: dc-dc.output, to: bus, parts: [{fuse: fuse-200, name: o}]}"),
    )  # fmt: skip
    assert row("loads", "heater", path=path)["dark on pack trip"] == "left on dc-dc only"
    # 10 A × 28 V / (0.9 × 24 V) = 12.96 A
    assert row("loads", "dc-dc", path=path)["current"] == "13.0 A"


def test_a_bar_and_a_switch(row: Rows) -> None:
    bar, switch = row("busbars", "hot bus"), row("busbars", "parallel switch")
    assert (bar["load"], bar["fault max"]) == ("115 A", "25.9 kA")
    assert bar["withstands"] == "25 kA for 1 s"
    assert (switch["for a time"], switch["normally"]) == ("700 A for 30 s", "open")
    assert switch["withstands"] == switch["may open"] == ""
    assert row("busbars", "contactor")["worked by"] == "pack"


def test_labels_say_what_the_trade_marks(row: Rows) -> None:
    assert row("labels", "disconnect", "house switch")["text"] == (
        "house switch: 24 V DC nominal, available fault current 25.9 kA, calculated 2026-03-05"
    )
    assert row("labels", "fuse", "main fuse")["text"] == (
        "main fuse: class-t, 200 A, 58 V DC, breaks 20 kA at 32 V. "
        "Replace with same family and rating only."
    )
    assert row("labels", "parallel switch")["text"] == (
        "parallel switch: EMERGENCY ONLY, at most 700 A for 30 s. Leave open in use."
    )
    assert row("labels", "always live")["at"] == "hot bus"  # alone: `bus` is behind the switch
    assert row("labels", "remote off", "pack")["text"] == "pack: remote OFF at ____"


def test_a_failing_fuse_gets_no_label(row: Rows) -> None:
    text = row("labels", "fuse", "heater fuse")["text"]
    assert text.startswith("no label: 2 fail: interrupt-rating, selectivity")


def test_an_open_link_that_joins_no_batteries_is_no_parallel_switch(
    schedule: Callable[..., Schedule], changed: Rows
) -> None:
    part = "{disconnect: switch-300, name: bypass, normally: open}"
    link = f"circuits:\n  way round: {{from: hot bus, to: bus, parts: [{part}]}}"
    path = changed(("circuits:", link))
    rows = schedule("labels", path).rows
    assert [each[1] for each in rows if each[0] == "parallel switch"] == ["parallel switch"]
    assert "bypass" in [each[1] for each in rows if each[0] == "disconnect"]


def test_the_commissioning_record_expects_what_the_study_says(row: Rows) -> None:
    assert row("commissioning", "resting voltage", "pack")["expected"] == "25.6 V to 27.2 V"
    assert row("commissioning", "resistance of the battery", "pack")["expected"] == "2 mΩ to 4 mΩ"
    drop = row("commissioning", "voltage drop", "heater")
    assert drop["expected"] == "at most 664 mV"
    assert drop["limit"] == "1.20 V (5 % of the nominal voltage)"  # of 24 V
    warm = row("commissioning", "terminal temperature", "heater fuse")
    assert warm["limit"] == "90 °C"
    assert warm["expected"].endswith(" in 35 °C")
    trip = row("commissioning", "pack trip and its alarm", "pack")
    assert trip["expected"] == "without a battery then: heater, pump"
    assert row("commissioning", "parallel switch")["limit"] == "700 A for 30 s"
    assert warm["measured"] == warm["instrument, serial"] == warm["initials"] == ""


def test_batteries_side_by_side_are_compared_before_they_are_joined(
    row: Rows, changed: Rows
) -> None:
    path = changed((", normally: open", ""), ("emergency: {close: [parallel switch]}",
                                              "emergency: {open: [parallel switch]}"))  # fmt: skip
    joined = row("commissioning", "voltages before joining", path=path)
    assert joined["subject"] == "pack, spare pack"
    assert joined["limit"] == "at most 0.1 V apart (common practice)"


SYSTEMS = Path(__file__).parents[3] / "fixtures" / "systems"


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(
    "system", ["tender-planted", "van-cured", "cabin-planted", "small/f14-at-the-dock"]
)
def test_every_row_has_a_cell_a_column_and_its_subject(
    name: str, system: str, schedule: Callable[..., Schedule]
) -> None:
    made = schedule(name, SYSTEMS / f"{system}.yaml")
    # Only the last of these systems has an inlet.
    assert bool(made.rows) == (name != "shore" or system.startswith("small"))
    assert len(made.rows) == len(made.subjects)
    for cells in made.rows:
        assert len(cells) == len(made.columns)
        assert all(cell.isprintable() and cell == cell.strip() for cell in cells)
        assert "nan" not in cells
        assert not any("unknown" in cell for cell in cells)
    assert len({column.name for column in made.columns}) == len(made.columns)


def test_the_shore_sheet_of_the_trade_case(row: Rows) -> None:
    """9.60 A beside 13.04 A of loads on 16 A; 2.96 A are left: 368 Ah at 21.5 A."""
    cells = row("shore", "dock", path=SYSTEMS / "small" / "f14-at-the-dock.yaml")
    assert (cells["AC loads"], cells["charger draws"], cells["together"]) == (
        "13.0 A", "9.60 A", "22.6 A",
    )  # fmt: skip
    assert (cells["cord"], cells["ground-fault trip"]) == ("16 A, 2.5 mm², 20 m", "30 mA")
    assert (cells["limit to set"], cells["left for charging"]) == ("16.0 A", "2.96 A")
    assert cells["full after at least"] == "17.1 h"
    assert cells["limit counts"] == "the charger only"
    assert cells["verdicts"] == "1 fail: shore-overload"


def test_the_energy_sheet_of_a_night(row: Rows) -> None:
    """80 Ah at 3.5 A, and 68.4 Ah at least."""
    path = SYSTEMS / "small" / "overnight.yaml"
    cells = row("energy", "house", "normal", path=path)
    assert (cells["runs for"], cells["runs at least"]) == ("22.9 h", "19.5 h")
    assert (cells["charged by"], cells["full after at least"]) == ("dc-dc", "4.90 h")
    assert row("energy", "start", "normal", path=path)["runs for"] == ""


DEAD = ("emergency: {close: [parallel switch]}",
        "emergency: {close: [parallel switch]}\n  dead: {without: [pack, spare pack]}")  # fmt: skip


def test_a_condition_without_batteries_leaves_the_least_fault_as_it_is(
    row: Rows, changed: Rows
) -> None:
    """No current flows in it, so nothing there has to be cleared: 2.42 kA and 1.71 s as before."""
    cells = row("devices", "heater fuse", path=changed(DEAD))
    assert (cells["fault min"], cells["clears in"]) == ("2.42 kA", "1.71 s")


def test_a_label_has_the_larger_current_of_both_ends(row: Rows, changed: Rows) -> None:
    """Before the contactor 27.2 V / 2.1 mΩ = 12.95 kA; behind its 1 mΩ 27.2 / 3.1 = 8.77 kA."""
    path = changed(
        ("emergency: {close: [parallel switch]}", "idle: {draw: {heater: 0 %}}"),
        ("resistance: {min: 0 mΩ, max: 0.1 mΩ}, withstand", "resistance: 1 mΩ, withstand"),
    )
    assert row("labels", "disconnect", "contactor", path=path)["fault max"] == "13.0 kA"


def test_a_bus_that_a_converter_keeps_alive_is_labelled(
    schedule: Callable[..., Schedule], changed: Rows
) -> None:
    path = changed(
        ("circuits:", "converters:\n  dc-dc: {output_current: 10 A, output_voltage: 28 V,"
         " efficiency: 90 %, min_input_voltage: 24 V}\ncircuits:\n"
         "  in: {from: spare pack, to: dc-dc.input, parts: [{fuse: fuse-200, name: i}]}\n"
         "  out: {from: dc-dc.output, to: bus, parts: [{fuse: fuse-200, name: o}]}"),
    )  # fmt: skip
    rows = schedule("labels", path).rows
    assert [each[1] for each in rows if each[0] == "always live"] == ["hot bus", "bus"]


def test_the_rating_is_that_of_the_lowest_voltage_that_covers() -> None:
    rows = ((14.0, 30e3), (58.0, 10e3), (32.0, 20e3), (32.0, 19e3))
    part = SimpleNamespace(
        interrupt_ratings=tuple(SimpleNamespace(voltage=v, current=i) for v, i in rows)
    )
    assert rating_at(part, 28.8) == 3  # of two at one voltage the lesser
    assert rating_at(part, 32.0) == 3
    assert rating_at(part, 32.1) == 1
    assert rating_at(part, 58.1) is None


def test_one_unknown_condition_makes_the_worst_unknown() -> None:
    """The largest of what is known may not be the largest."""
    known = given("current", "I", 5.0, "A", DEFINITION)
    values: dict[str, Value] = {"normal": known, "parked": Unknown("current", ("x: y",))}
    findings: Any = SimpleNamespace(studies=values)
    facts = Facts(findings, MADE)
    assert cell(facts.most(lambda study: study)) == ""
    assert cell(facts.least(lambda study: study)) == ""
    assert cell(facts.most(lambda study: study, lambda study: study is known)) == "5.00 A"
