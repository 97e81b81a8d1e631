"""Walking from a conductor's end to the sources that feed it."""

from __future__ import annotations

import pytest

from coordination.model import Element
from coordination.network import connect
from coordination.study import Protection, Study, study
from coordination.trace import Derived, Unknown
from tests.coordination.study.hand_made import (
    Builder,
    battery,
    breaker,
    cable,
    channel,
    fuse,
    joint,
    run,
    switch,
)

PACK = battery("pack", (25.6, 27.2), (3e-3, 5e-3))
WIRE = cable("wire", 1e-3)


def tender() -> Builder:
    """Two packs, a main bus, a branch, an alternator on a start battery behind a converter."""
    builder = Builder(nominal_voltage=24.0).bus("bus", order=("port feed", "starboard feed", "out"))
    builder.battery("port", PACK).battery("starboard", PACK).load("pump", 30.0)
    builder.circuit(
        "port feed",
        "port",
        "bus",
        {"part": fuse("t"), "distance": 0.12},
        run(WIRE, 0.6),
        {"part": switch(), "name": "port isolator"},
        run(WIRE, 1.1),
    )
    builder.circuit("starboard feed", "starboard", "bus", run(WIRE, 0.3), fuse("t"), run(WIRE, 0.5))
    builder.circuit("out", "bus", "pump", breaker("b"), run(WIRE, 4.0))
    builder.limited("alternator", 80.0, 28.2)
    builder.circuit("alternator lead", "alternator", "bus", run(WIRE, 2.0))
    builder.condition("isolated", open=("port isolator",))
    return builder


def found_in(condition: str = "normal") -> Study:
    return study(connect(tender().system(), condition))


def element(found: Study, name: str) -> Element:
    return next(e for e in found.subjects("element") if e.name == name)


def names(protection: Protection) -> tuple[list[str], list[str], list[str]]:
    return (
        sorted(e.name for e in protection.devices),
        [s.name for s in protection.exposed],
        [s.name for s in protection.limited],
    )


def stub(protection: Protection) -> float:
    assert isinstance(protection.stub, Derived)
    return protection.stub.value


def test_cable_behind_its_fuse() -> None:
    found = found_in()
    cable_ = element(found, "port feed/2")
    start = found.protectors(cable_, "start")
    assert names(start) == (["port feed/1"], [], [])
    assert stub(start) == pytest.approx(0.12)
    # Its far end meets the other pack's fuse, and the alternator with nothing between.
    end = found.protectors(cable_, "end")
    assert names(end) == (["starboard feed/2"], [], ["alternator"])
    # 0.3 m before that fuse; 1.1 + 2.0 m to the alternator.
    assert stub(end) == pytest.approx(3.1)


def test_cable_before_its_fuse_is_exposed() -> None:
    found = found_in()
    start = found.protectors(element(found, "starboard feed/1"), "start")
    assert names(start) == ([], ["starboard"], [])
    assert stub(start) == 0.0
    end = found.protectors(element(found, "starboard feed/1"), "end")
    assert names(end)[0] == ["starboard feed/2"]


def test_branch_beyond_the_bus() -> None:
    found = found_in()
    start = found.protectors(element(found, "out/2"), "start")
    assert names(start) == (["out/1"], [], [])
    assert names(found.protectors(element(found, "out/2"), "end")) == ([], [], [])


def test_open_switch_ends_the_walk() -> None:
    found = found_in("isolated")
    end = found.protectors(element(found, "port feed/2"), "end")
    assert names(end) == ([], [], [])
    assert names(found.protectors(element(found, "port isolator"), "start"))[0] == ["port feed/1"]


def test_busbar_and_the_devices_around_it() -> None:
    found = found_in()
    bus = found.system.busbars["bus"]
    assert names(found.protectors(bus)) == (["port feed/1", "starboard feed/2"], [], ["alternator"])
    around = found.branch_devices(bus)
    assert [e.name for e in around.upstream] == ["port feed/1", "starboard feed/2"]
    assert [e.name for e in around.downstream] == ["out/1"]


def test_device_with_no_stated_distance_nor_cable_before_it() -> None:
    builder = Builder().battery("pack", PACK).load("lamp", 1.0)
    builder.circuit("a", "pack", "lamp", fuse(), run(WIRE, 1.0))
    found = study(connect(builder.system()))
    missing = found.protectors(element(found, "a/2"), "start").stub
    assert isinstance(missing, Unknown)
    assert missing.missing == ("a/1: distance from the source",)


@pytest.mark.parametrize(("shorted", "counts"), [(False, True), (True, False), (None, False)])
def test_channel_counts_only_if_it_cannot_fail_shorted(shorted: bool | None, counts: bool) -> None:
    builder = Builder().battery("pack", PACK).load("lamp", 1.0)
    builder.circuit(
        "a", "pack", "lamp", run(WIRE, 0.1), channel("c", fails_shorted=shorted), run(WIRE, 1.0)
    )
    found = study(connect(builder.system()))
    protection = found.protectors(element(found, "a/3"), "start")
    assert [e.name for e in protection.devices] == (["a/2"] if counts else [])
    assert [s.name for s in protection.exposed] == ([] if counts else ["pack"])


def test_device_on_a_ring_without_source_of_its_own_is_not_listed() -> None:
    """Both cables of a ring end on one bus: a fuse between them brings nothing from elsewhere."""
    builder = Builder().battery("pack", PACK).bus("bus", "far").load("lamp", 1.0)
    builder.circuit("in", "pack", "bus", fuse())
    builder.circuit("one", "bus", "far", run(WIRE, 1.0), fuse("f"))
    builder.circuit("two", "bus", "far", run(WIRE, 1.0))
    found = study(connect(builder.system()))
    protection = found.protectors(found.system.busbars["bus"])
    assert [e.name for e in protection.devices] == ["in/1"]


def test_crossings() -> None:
    found = found_in()
    assert found.crossings(element(found, "port feed/1")) == (True, True)
    assert found.crossings(element(found, "out/1")) == (True, False)
    assert found.crossings(element(found, "alternator lead/1")) == (True, True)
    assert found_in("isolated").crossings(element(found, "port feed/1")) == (True, False)


def test_neighbours_and_series_devices() -> None:
    found = found_in()
    assert [e.name for e in found.neighbours(element(found, "port isolator"))] == [
        "port feed/2",
        "port feed/4",
    ]
    # The breaker stands on the bus: only its own cable ends on its terminals.
    assert [e.name for e in found.neighbours(element(found, "out/1"))] == ["out/2"]
    assert [e.name for e in found.series_devices(element(found, "out/2"))] == ["out/1"]


def test_busiest_section_of_a_bus() -> None:
    """30 A out at one end, from two packs side by side at the other: all 30 A pass before it.

    Charging, 80 A come in; the alternator is not in the order, so the sum stands for the section.
    """
    builder = tender()
    del builder.circuits["alternator lead"], builder.sources["alternator"]
    found = study(connect(builder.system()))
    bus = found.system.busbars["bus"]
    section = found.section_load(bus)
    assert isinstance(section, Derived)
    assert section.value == pytest.approx(30.0)
    builder.bus("bus", order=("port feed", "out", "starboard feed"))
    found = study(connect(builder.system()))
    section = found.section_load(found.system.busbars["bus"])
    port = found.load(element(found, "port feed/1"))
    starboard = found.load(element(found, "starboard feed/1"))
    assert isinstance(section, Derived)
    assert isinstance(port, Derived)
    assert isinstance(starboard, Derived)
    # Between the packs' ends only the larger share passes any one section.
    assert section.value == pytest.approx(max(port.value, starboard.value))


def test_joints_and_devices_have_no_legs() -> None:
    builder = Builder().battery("pack", PACK).load("lamp", 1.0)
    builder.circuit("a", "pack", "lamp", fuse(), joint(1e-3), run(WIRE, 1.0, runs=2))
    found = study(connect(builder.system()))
    assert found.legs(element(found, "a/1")) == ()
    positive, back = found.legs(element(found, "a/3"))
    assert (positive.name, back.name, positive.runs) == ("positive", "return", 2)
    assert isinstance(positive.resistance_high, Derived)
    assert positive.resistance_high.value == pytest.approx(0.5e-3)
