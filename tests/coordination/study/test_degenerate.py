"""What no drawing should contain, and some do: clear answers, no infinity, no crash."""

from __future__ import annotations

import pytest

from coordination.network import connect
from coordination.study import study
from coordination.trace import Unknown
from tests.coordination.study.everything import PACK, number, studied
from tests.coordination.study.hand_made import (
    Builder,
    cable,
    fuse,
    joint,
    run,
    switch,
)


def test_nothing_at_all() -> None:
    found = studied(Builder())
    assert found.problems == ()


def test_island_without_source() -> None:
    builder = Builder().battery("pack", PACK).bus("bus", "lost").load("pump", 5.0).load("lamp", 1.0)
    builder.circuit("feed", "pack", "bus", fuse())
    builder.circuit("a", "bus", "lamp", fuse())
    builder.circuit("b", "lost", "pump", fuse(), joint(1e-3))
    found = studied(builder)
    assert number(found.fault_max("pump")) == 0.0
    assert number(found.fault_min("lost")) == 0.0
    assert found.problems == ("pump, lost: not connected to any source",)
    element = found.subjects("fuse")[2]
    assert number(found.load(element)) == 0.0
    assert number(found.duty(element)) == 0.0
    assert found.crossings(element) == (False, False)


def test_loop_without_source() -> None:
    builder = Builder().bus("one", "two").load("lamp", 1.0)
    builder.circuit("a", "one", "two", fuse(), joint(1e-3))
    builder.circuit("b", "one", "two", fuse(), joint(2e-3))
    builder.circuit("c", "two", "lamp", fuse())
    found = studied(builder)
    assert number(found.fault_max("two")) == 0.0


def test_no_resistance_anywhere_but_in_the_battery() -> None:
    builder = Builder().battery("pack", PACK).bus("one", "two").load("lamp", 1.0)
    builder.circuit("a", "pack", "one", fuse(), switch())
    builder.circuit("b", "one", "two", fuse())
    builder.circuit("c", "two", "lamp", fuse())
    found = studied(builder)
    for point in found.network.points:
        assert number(found.fault_max(point)) == pytest.approx(27.2 / 3e-3)
    assert number(found.duty(found.subjects("fuse")[2])) == pytest.approx(27.2 / 3e-3)


def test_parallel_devices_without_resistance() -> None:
    builder = Builder().battery("pack", PACK).bus("one", "two").load("lamp", 10.0)
    builder.circuit("a", "pack", "one", fuse())
    builder.circuit("left", "one", "two", fuse()).circuit("right", "one", "two", fuse())
    builder.circuit("c", "two", "lamp", fuse())
    found = studied(builder)
    left = found.subjects("fuse")[1]
    load = found.load(left)
    assert isinstance(load, Unknown)
    assert load.missing == ("how left/1, right/1 share: none has a resistance",)
    assert number(found.duty(left)) == pytest.approx(27.2 / 3e-3)
    assert number(found.fault_max("two")) == pytest.approx(27.2 / 3e-3, rel=1e-5)
    # What does not pass between the two is known all the same.
    assert number(found.load(found.subjects("fuse")[3])) == pytest.approx(10.0)


def test_lasso_without_resistance() -> None:
    """A ring hung on one point, of devices only."""
    builder = Builder().battery("pack", PACK).bus("bus", "off")
    builder.circuit("a", "pack", "bus", fuse())
    builder.circuit("there", "bus", "off", fuse()).circuit("back", "off", "bus", fuse())
    found = studied(builder)
    assert number(found.fault_max("off")) == pytest.approx(27.2 / 3e-3, rel=1e-5)


def test_every_source_out() -> None:
    builder = Builder().battery("pack", PACK).load("lamp", 1.0)
    builder.circuit("a", "pack", "lamp", fuse(), joint(1e-3))
    builder.condition("dead", without=("pack",))
    found = studied(builder, "dead")
    assert number(found.fault_max("pack")) == 0.0
    assert found.problems == ()


def test_everything_open() -> None:
    builder = Builder().battery("pack", PACK).load("lamp", 1.0)
    builder.circuit("a", "pack", "lamp", {"part": switch(), "name": "isolator"}, joint(1e-3))
    builder.condition("off", open=("isolator",))
    found = studied(builder, "off")
    isolator = found.subjects("disconnect")[0]
    assert not found.closed(isolator)
    assert number(found.duty(isolator)) == pytest.approx(27.2 / 3e-3)
    assert number(found.load(isolator)) == 0.0
    assert found.crossings(isolator) == (False, False)


def test_cable_without_size() -> None:
    wire = cable("unknown wire", None, 90.0, area=None)
    builder = Builder().battery("pack", PACK).load("lamp", 1.0)
    builder.circuit("a", "pack", "lamp", fuse(), run(wire, 5.0))
    found = studied(builder)
    assert number(found.fault_max("lamp")) == pytest.approx(27.2 / 3e-3)
    least = found.fault_min("lamp")
    assert isinstance(least, Unknown)
    assert least.missing == ("unknown wire: area",)


def test_ten_thousand_points_deep() -> None:
    """A chain too deep for recursion, with sources at both ends and an unknown in the middle."""
    builder = Builder().battery("one", PACK).battery("other", PACK)
    parts = [joint(1e-6) for _ in range(9000)]
    parts[4500] = {"part": fuse("unstated", None)}
    builder.circuit("chain", "one", "other", *parts)
    found = study(connect(builder.system()))
    elements = found.subjects("element")
    assert number(found.duty(elements[4500])) == pytest.approx(27.2 / (3e-3 + 4500e-6), rel=1e-3)
    assert isinstance(found.fault_min("chain@5"), Unknown)
    assert isinstance(found.fault_min_through(elements[10]), Unknown)
    assert isinstance(found.load(elements[10]), Unknown)
    assert found.protectors(elements[10], "end").devices == (elements[4500],)
    assert list(found.fault_max("chain@4000").steps())  # type: ignore[union-attr]
