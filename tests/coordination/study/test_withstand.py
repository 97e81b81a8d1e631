"""Fault currents along a cable, what clears them, and inrush, by hand calculation."""

from __future__ import annotations

from typing import Any

import pytest

from catalogue.records import Curve, InterruptRating
from coordination.network import connect
from coordination.study import Study, study
from coordination.study.withstand import FaultRange
from coordination.trace import Derived
from tests.coordination.study.hand_made import Builder, battery, cable, fuse, joint, run

WIRE = cable("wire", 0.5e-3)  # 1 mΩ for each metre out and back


def rated(id: str, amps: float, **fields: Any) -> Any:
    curve = Curve((), ((2 * amps, 100.0), (10 * amps, 0.01)))
    stated = {"curve": curve, "rated_current": amps, "derating": ((30.0, 1.0),)}
    stated |= {"interrupt_ratings": (InterruptRating(60.0, 20e3),)}
    return fuse(id, **(stated | fields))


def studied(builder: Builder) -> Study:
    return study(connect(builder.system()))


def value(item: Any) -> float:
    assert isinstance(item, Derived), item
    return item.value


def ranges(found: Study, name: str) -> dict[str, FaultRange]:
    element = next(each for each in found.subjects("element") if each.name == name)
    return {each.end: each for each in found.fault_range(element)}


def branch() -> Builder:
    """26 to 24 V behind 4 to 8 mΩ; a fuse, 5 m of wire, a motor."""
    builder = Builder().battery("pack", battery("b", (24.0, 26.0), (4e-3, 8e-3)))
    builder.load("motor", 20.0)
    return builder.circuit("feed", "pack", "motor", rated("f", 100.0), run(WIRE, 5.0))


def test_a_radial_cable_is_fed_from_one_end_from_full_current_to_the_weakest() -> None:
    spans = ranges(studied(branch()), "feed/2")
    assert set(spans) == {"start"}
    span = spans["start"]
    assert value(span.highest) == pytest.approx(26.0 / 4e-3)
    assert value(span.lowest) == pytest.approx(24.0 / 13e-3)
    assert [(each.device.name, value(each.share)) for each in span.clearers] == [("feed/1", 1.0)]
    assert span.exposed == ()
    assert span.least == 0.0  # a motor hangs beyond: overloads flow too


@pytest.mark.parametrize(("metres", "amps"), [(0.0, 6500.0), (2.5, 4000.0), (5.0, 26.0 / 9e-3)])
def test_the_current_falls_along_the_cable(metres: float, amps: float) -> None:
    span = ranges(studied(branch()), "feed/2")["start"]
    assert span.at(metres) == pytest.approx(amps)
    assert span.where(amps) == pytest.approx(metres, abs=1e-6)


def test_less_than_the_far_end_draws_is_a_fault_beyond() -> None:
    assert ranges(studied(branch()), "feed/2")["start"].where(1000.0) is None


def test_how_long_a_current_lasts_is_read_off_the_clearers_curve() -> None:
    # 200 A: 100 s; 1 000 A and more: 10 ms at constant I²t; below 200 A no end
    span = ranges(studied(branch()), "feed/2")["start"]
    assert [time for time, _ in span.clearings(200.0)] == [100.0]
    assert [time for time, _ in span.clearings(2000.0)] == [pytest.approx(0.0025)]
    assert [time for time, _ in span.clearings(199.0)] == [None]
    assert set(span.corners()) == {200.0, 1000.0}


def two_packs() -> Builder:
    """Two packs of 26 V and 4 mΩ, each with a fuse and 1 m of wire to a bar with a motor."""
    builder = Builder().bus("bar").load("motor", 20.0)
    builder.circuit("branch", "bar", "motor", rated("m", 50.0), joint(1e-3))
    for number in (1, 2):
        builder.battery(f"pack {number}", battery(f"b{number}", (24.0, 26.0), (4e-3, 8e-3)))
        feed = (rated("f", 100.0), run(WIRE, 1.0))
        builder.circuit(f"lead {number}", f"pack {number}", "bar", *feed)
    return builder


def test_a_packs_lead_is_fed_from_both_ends() -> None:
    spans = ranges(studied(two_packs()), "lead 1/2")
    # from its own pack 26 V / 4 mΩ; from the other 26 V / 5 mΩ
    assert value(spans["start"].highest) == pytest.approx(6500.0)
    assert value(spans["end"].highest) == pytest.approx(5200.0)
    assert [each.device.name for each in spans["start"].clearers] == ["lead 1/1"]
    assert [each.device.name for each in spans["end"].clearers] == ["lead 2/1"]


def test_towards_a_pack_no_overload_flows_only_bolted_faults() -> None:
    # min bound from the other pack to this lead's far end: 24 V / (8 + 1 + 1) mΩ
    spans = ranges(studied(two_packs()), "lead 1/2")
    assert spans["end"].least == pytest.approx(2400.0)
    assert spans["start"].least == 0.0


def test_the_bar_between_is_cleared_by_both_with_half_each() -> None:
    builder = two_packs()
    builder.bus("block").circuit("link", "bar", "block", run(WIRE, 2.0))
    builder.load("lamp", 1.0).circuit("lamp", "block", "lamp", rated("l", 10.0))
    span = ranges(studied(builder), "link/1")["start"]
    shares = {each.device.name: value(each.share) for each in span.clearers}
    assert shares == {"lead 1/1": pytest.approx(0.5), "lead 2/1": pytest.approx(0.5)}
    # 400 A in the link are 200 A in each fuse: 100 s
    assert [time for time, _ in span.clearings(400.0)] == [100.0, 100.0]


def test_a_bare_battery_is_named() -> None:
    builder = Builder().battery("pack", battery("b", (24.0, 26.0), 4e-3)).load("motor", 20.0)
    builder.circuit("feed", "pack", "motor", run(WIRE, 1.0), rated("f", 100.0))
    span = ranges(studied(builder), "feed/1")["start"]
    assert [source.name for source in span.exposed] == ["pack"]
    assert span.clearers == ()


def test_without_a_clearing_curve_it_is_missing() -> None:
    builder = Builder().battery("pack", battery("b", (24.0, 26.0), 4e-3)).load("motor", 20.0)
    part = rated("f", 100.0, curve=None, clearing_i2t=1e4)
    builder.circuit("feed", "pack", "motor", part, run(WIRE, 1.0))
    span = ranges(studied(builder), "feed/2")["start"]
    assert span.missing == ("f: maximum clearing curve",)


def test_an_open_cable_has_no_range() -> None:
    builder = branch().condition("off", open=("feed",))
    found = study(connect(builder.system(), "off"))
    assert found.fault_range(builder.system().elements()[1]) == ()


def test_inrush_is_voltage_over_the_loop_and_half_the_stored_energy_over_it() -> None:
    # 28 V on charge behind 4 + 5 + 1 mΩ: 2.8 kA; 20 mF × 28² / (2 × 10 mΩ) = 784 A²s
    builder = Builder()
    builder.battery("pack", battery("b", (24.0, 26.0), (4e-3, 8e-3), charge_voltage=28.0))
    builder.load("inverter", 20.0, capacitance=20e-3, inrush_resistance=1e-3)
    builder.circuit("feed", "pack", "inverter", rated("f", 100.0), run(WIRE, 5.0))
    found = studied(builder)
    inrush = found.inrush(builder.equipment["inverter"])
    assert inrush is not None
    assert value(inrush.resistance) == pytest.approx(10e-3)
    assert value(inrush.peak) == pytest.approx(2800.0)
    assert value(inrush.energy) == pytest.approx(784.0)


def test_no_capacitance_no_inrush() -> None:
    builder = branch()
    assert studied(builder).inrush(builder.equipment["motor"]) is None
