"""Sources that state too little, too much, or do not go together: clear answers."""

from __future__ import annotations

import pytest

from coordination.network import connect
from coordination.study import study
from coordination.trace import Unknown
from tests.coordination.study.everything import PACK, number, studied
from tests.coordination.study.hand_made import (
    Builder,
    battery,
    fuse,
    joint,
)


def test_island_fed_by_limited_sources_only() -> None:
    builder = Builder().limited("solar", 30.0, 14.4).limited("charger", 10.0, 14.2).bus("bus")
    builder.load("lamp", 20.0).circuit("a", "solar", "bus", fuse(), joint(1e-3))
    builder.circuit("b", "charger", "bus", fuse(), joint(1e-3))
    builder.circuit("c", "bus", "lamp", fuse(), joint(10e-3))
    found = studied(builder)
    assert number(found.fault_max("lamp")) == pytest.approx(40.0)
    assert number(found.fault_min("lamp")) == 0.0
    fuses = found.subjects("fuse")
    # 30 : 10 share 20 A, and a fault at either end of the lamp's fuse is all they can give.
    assert number(found.load(fuses[0])) == pytest.approx(15.0)
    assert number(found.load(fuses[1])) == pytest.approx(5.0)
    assert number(found.load(fuses[2])) == pytest.approx(20.0)
    assert number(found.duty(fuses[2])) == pytest.approx(40.0)
    assert number(found.duty(fuses[0])) == pytest.approx(30.0)
    # The charger holds 14.2 V at its terminals: less 5 A × 1 mΩ and 20 A × 10 mΩ.
    assert number(found.load_voltage("lamp")) == pytest.approx(14.2 - 0.005 - 0.2)
    assert number(found.voltage_max("lamp")) == 14.4
    assert isinstance(found.time_constant("lamp"), Unknown)


def test_limited_sources_in_a_ring() -> None:
    builder = Builder().limited("solar", 30.0, 14.4).bus("one", "two").load("lamp", 10.0)
    builder.circuit("in", "solar", "one", fuse())
    builder.circuit("a", "one", "two", fuse(), joint(1e-3))
    builder.circuit("b", "one", "two", fuse(), joint(4e-3))
    builder.circuit("c", "two", "lamp", fuse())
    found = studied(builder)
    assert number(found.fault_max("two")) == pytest.approx(30.0)
    # 10 A over 1 and 4 mΩ side by side: 8 and 2 A.
    assert number(found.load(found.subjects("joint")[0])) == pytest.approx(8.0)
    assert number(found.load(found.subjects("joint")[1])) == pytest.approx(2.0)


def test_more_drawn_than_limited_sources_give() -> None:
    builder = Builder().limited("solar", 10.0, 14.4).load("heater", 20.0)
    builder.circuit("a", "solar", "heater", fuse(), joint(1e-3))
    found = studied(builder)
    load = found.load(found.subjects("fuse")[0])
    assert isinstance(load, Unknown)
    assert load.missing == found.problems
    assert "20 A are drawn" in load.missing[0]
    assert isinstance(found.load_voltage("heater"), Unknown)
    assert isinstance(found.drop(found.system.equipment["heater"]), Unknown)


def test_limited_source_without_limit_or_voltage() -> None:
    builder = Builder().limited("solar", None, None).battery("pack", PACK).bus("bus")
    builder.circuit("a", "solar", "bus", fuse()).circuit("b", "pack", "bus", fuse())
    found = studied(builder)
    fault = found.fault_max("bus")
    assert isinstance(fault, Unknown)
    assert fault.missing == ("solar: current_limited",)
    assert isinstance(found.voltage_max("bus"), Unknown)
    assert number(found.fault_min("bus")) == pytest.approx(25.6 / 5e-3)


def test_battery_without_figures() -> None:
    builder = Builder().battery("pack", battery("bare", None, None)).bus("bus").load("pump", 5.0)
    builder.circuit("a", "pack", "bus", fuse()).circuit("b", "bus", "pump", fuse(), joint(1e-3))
    found = studied(builder)
    for value in (
        found.fault_max("bus"),
        found.fault_min("bus"),
        found.voltage_max("pump"),
        found.load_voltage("pump"),
        found.duty(found.subjects("fuse")[1]),
    ):
        assert isinstance(value, Unknown)
        assert any("bare: " in phrase for phrase in value.missing)
    assert number(found.load(found.subjects("fuse")[1])) == 5.0


def test_battery_without_resistance_is_no_infinite_source() -> None:
    builder = Builder().battery("pack", battery("ideal", 12.0, 0.0)).load("lamp", 1.0)
    builder.circuit("a", "pack", "lamp", fuse())
    found = studied(builder)
    assert isinstance(found.fault_max("lamp"), Unknown)
    assert found.problems == ("pack: its resistance must be above zero",)


def test_sources_of_different_voltage_in_parallel() -> None:
    builder = Builder(nominal_voltage=24.0).battery("house", PACK).bus("bus")
    builder.battery("start", battery("start battery", (12.2, 12.9), (4e-3, 6e-3)))
    builder.circuit("a", "house", "bus", fuse(), joint(1e-3))
    builder.circuit("b", "start", "bus", fuse(), joint(1e-3))
    found = studied(builder)
    assert found.problems == (
        "start and house: connected, but their voltages do not meet "
        "(12.9 V at most and 25.6 V at least)",
    )
    # The house pack drives current into the start battery: (25.6 − 12.2) V / (5 + 1 + 1 + 6) mΩ.
    assert number(found.load(found.subjects("fuse")[0])) == pytest.approx(13.4 / 13e-3)
    assert number(found.battery_current(found.system.sources["start"])) == 0.0


def test_charger_of_the_wrong_voltage() -> None:
    builder = Builder().battery("house", PACK).limited("charger", 10.0, 58.4)
    builder.circuit("a", "charger", "house", fuse(), joint(1e-3))
    assert "charger" in studied(builder).problems[0]


def test_charger_of_the_right_voltage_is_no_problem() -> None:
    pack = battery("pack", (25.6, 27.2), (3e-3, 5e-3), charge_voltage=28.8)
    builder = Builder().battery("house", pack).limited("charger", 10.0, 28.8)
    builder.circuit("a", "charger", "house", fuse(), joint(1e-3))
    assert studied(builder).problems == ()


def test_more_drawn_than_a_battery_can_bring() -> None:
    builder = Builder().battery("pack", PACK).load("heater", 10_000.0)
    builder.circuit("a", "pack", "heater", fuse(), joint(1e-3))
    assert studied(builder).problems == ("heater: more is drawn than its sources can bring to it",)


def test_two_batteries_drawn_in_series_are_told_not_studied_as_a_bank() -> None:
    for stated, told in ((24.0, True), (12.0, False)):
        builder = Builder(nominal_voltage=stated).load("lamp", 1.0)
        for name in ("first", "second"):
            builder.battery(name, battery(name, (12.0, 13.0), (4e-3, 7e-3)))
        builder.circuit("a", "first", "second", fuse())
        builder.circuit("b", "second", "lamp", fuse())
        found = study(connect(builder.system())).problems
        assert any("no battery is of that voltage" in problem for problem in found) is told
