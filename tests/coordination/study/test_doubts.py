"""An unstated resistance makes exactly those results unknown that rest on it."""

from __future__ import annotations

import pytest

from coordination.network import connect
from coordination.study import Study, study
from coordination.trace import Derived, Unknown, Value
from tests.coordination.study.hand_made import Builder, battery, cable, fuse, joint, run

PACK = battery("pack", (25.6, 27.2), (3e-3, 5e-3))
UNSTATED = fuse("unstated", None)
MISSING = ("unstated: resistance",)


def studied(builder: Builder) -> Study:
    return study(connect(builder.system()))


def known(value: Value) -> bool:
    if isinstance(value, Unknown):
        assert value.missing == MISSING
    return isinstance(value, Derived)


def branches(packs: int) -> Builder:
    """Packs on a bus through stated fuses; two branches, the second with an unstated one."""
    builder = Builder().bus("bus").load("near", 5.0).load("behind", 7.0)
    for number in range(packs):
        builder.battery(f"pack {number}", PACK)
        builder.circuit(
            f"feed {number}", f"pack {number}", "bus", fuse("stated", 1e-4), joint(1e-3)
        )
    builder.circuit("a", "bus", "near", fuse("stated", 1e-4), joint(1e-3))
    builder.circuit("b", "bus", "behind", UNSTATED, joint(1e-3))
    return builder


@pytest.mark.parametrize("packs", [1, 2])
def test_only_what_lies_behind_it(packs: int) -> None:
    found = studied(branches(packs))
    assert {point for point in found.network.points if not known(found.fault_min(point))} == {
        "b@1",
        "behind",
    }
    assert {point for point in found.network.points if not known(found.load_voltage(point))} == {
        "b@1",
        "behind",
    }
    equipment = found.system.equipment
    assert known(found.drop(equipment["near"]))
    assert not known(found.drop(equipment["behind"]))
    # Loads are known everywhere: nothing is shared through it.
    assert all(known(found.load(element)) for element in found.subjects("element"))
    # Its own zone lies behind it; the others' zones end before it.
    assert [e.name for e in found.subjects("element") if not known(found.fault_min_through(e))] == [
        "b/1",
        "b/2",
    ]
    assert all(known(found.fault_max(point)) for point in found.network.points)
    assert all(known(found.duty(element)) for element in found.subjects("element"))


def test_between_parallel_packs_everything_is_shared_through_it() -> None:
    builder = Builder().bus("bus").load("near", 5.0)
    for number in range(2):
        builder.battery(f"pack {number}", PACK)
        builder.circuit(
            f"feed {number}",
            f"pack {number}",
            "bus",
            UNSTATED if number else fuse("stated", 1e-4),
            joint(1e-3),
        )
    builder.circuit("a", "bus", "near", fuse("stated", 1e-4), joint(1e-3))
    found = studied(builder)
    assert not any(known(found.fault_min(point)) for point in found.network.points)
    unknown = [e.name for e in found.subjects("element") if not known(found.load(e))]
    assert unknown == ["feed 0/1", "feed 0/2", "feed 1/1", "feed 1/2"]
    assert not known(found.battery_current(found.system.sources["pack 0"]))
    assert not known(found.incoming(found.system.busbars["bus"]))


def test_in_a_ring_that_hangs_on_the_bus() -> None:
    builder = Builder().battery("pack 0", PACK).bus("bus", "far").load("near", 5.0).load("end", 3.0)
    builder.circuit("feed", "pack 0", "bus", fuse("stated", 1e-4), joint(1e-3))
    builder.circuit("one", "bus", "far", UNSTATED, joint(1e-3))
    builder.circuit("two", "bus", "far", joint(2e-3))
    builder.circuit("a", "bus", "near", joint(1e-3)).circuit("b", "far", "end", joint(1e-3))
    found = studied(builder)
    assert {point for point in found.network.points if not known(found.fault_min(point))} == {
        "far",
        "one@1",
        "end",
    }
    assert [e.name for e in found.subjects("element") if not known(found.load(e))] == [
        "one/1",
        "one/2",
        "two/1",
    ]
    assert known(found.drop(found.system.equipment["near"]))
    assert not known(found.drop(found.system.equipment["end"]))


def test_unknown_draw_spoils_the_way_to_it() -> None:
    builder = Builder().battery("pack 0", PACK).bus("bus").load("near", 5.0)
    builder.load("puzzle", power=100.0, efficiency=None, min_voltage=11.0)
    builder.circuit("feed", "pack 0", "bus", fuse("stated", 1e-4), joint(1e-3))
    builder.circuit("a", "bus", "near", joint(1e-3)).circuit("b", "bus", "puzzle", joint(1e-3))
    found = studied(builder)
    loads = {e.name: found.load(e) for e in found.subjects("element")}
    assert [name for name, load in loads.items() if isinstance(load, Unknown)] == [
        "feed/1",
        "feed/2",
        "b/1",
    ]
    assert isinstance(found.load_voltage("near"), Unknown)
    assert known(found.fault_min("puzzle"))
    feed = loads["feed/1"]
    assert isinstance(feed, Unknown)
    assert feed.missing == ("puzzle: efficiency",)


def test_time_constant_needs_the_way_back() -> None:
    from coordination.model import Return

    wire = cable("wire", 1e-3)
    builder = Builder().battery("pack 0", PACK).bus("bus").load("near", 5.0)
    builder.circuit("feed", "pack 0", "bus", run(wire, 1.0))
    builder.circuit(
        "a", "bus", "near", run(wire, 1.0, return_path=Return(kind="path", resistance=1.5e-3))
    )
    builder.circuit(
        "b", "bus", "near", run(wire, 1.0, spacing=0.05, return_path=Return(kind="none"))
    )
    found = studied(builder)
    assert known(found.time_constant("bus"))
    tau = found.time_constant("near")
    assert isinstance(tau, Unknown)
    assert tau.missing == ("a/1: spacing to the return path",)
    least = found.fault_min("near")
    assert isinstance(least, Unknown)
    assert least.missing == ("b/1: resistance of the return path",)
