"""Devices in series and their shares, by hand calculation."""

from __future__ import annotations

from typing import Any

import pytest

from catalogue.records import Curve, InterruptRating
from coordination.network import connect
from coordination.study import Study, study
from coordination.study.pairs import Pair
from coordination.trace import Derived, Unknown
from tests.coordination.study.hand_made import (
    Builder,
    battery,
    breaker,
    channel,
    fuse,
    joint,
)

RATED = (InterruptRating(60.0, 20e3),)


def rated(id: str, amps: float, **fields: Any) -> Any:
    """A fuse that must open from 1.5 times its rating on, and clears 1 A²s per ampere squared."""
    curve = Curve(
        ((1.1 * amps, 1e4), (10 * amps, 0.005)), ((1.5 * amps, 100.0), (10 * amps, 0.01))
    )
    stated = {"curve": curve, "melting_i2t": 0.5 * amps**2, "clearing_i2t": amps**2}
    stated |= {"rated_current": amps, "interrupt_ratings": RATED, "derating": ((30.0, 1.0),)}
    return fuse(id, **(stated | fields))


def studied(builder: Builder, condition: str = "normal") -> Study:
    return study(connect(builder.system(), condition))


def value(item: Any) -> float:
    assert isinstance(item, Derived), item
    return item.value


def pair(found: Study, down: str, up: str, forward: bool = True) -> Pair:
    (one,) = (
        each
        for each in found.pairs()
        if (each.down.name, each.up.name, each.forward) == (down, up, forward)
    )
    return one


def names(found: Study) -> set[tuple[str, str, bool]]:
    return {(each.down.name, each.up.name, each.forward) for each in found.pairs()}


def radial() -> Builder:
    """26 V, 4 mΩ; main fuse, 1 mΩ, a bar with a lamp; branch fuse, 5 mΩ, a block; twig fuse."""
    builder = Builder().battery("pack", battery("b", (24.0, 26.0), 4e-3)).bus("bar", "block")
    builder.load("lamp", 30.0).load("motor", 20.0).load("radio", 5.0)
    builder.circuit("main", "pack", "bar", rated("m", 200.0), joint(1e-3))
    builder.circuit("lamp", "bar", "lamp", joint(10e-3))
    builder.circuit("branch", "bar", "block", rated("b", 80.0), joint(5e-3))
    builder.circuit("twig", "block", "motor", rated("t", 30.0), joint(10e-3))
    return builder.circuit("radio", "block", "radio", rated("r", 10.0), joint(10e-3))


def test_every_ancestor_is_upstream_and_the_nearest_is_marked() -> None:
    found = studied(radial())
    assert names(found) == {
        ("branch/1", "main/1", True),
        ("twig/1", "branch/1", True),
        ("twig/1", "main/1", True),
        ("radio/1", "branch/1", True),
        ("radio/1", "main/1", True),
    }
    assert pair(found, "twig/1", "branch/1").nearest
    assert not pair(found, "twig/1", "main/1").nearest


def test_the_range_goes_from_where_it_must_open_to_the_largest_fault_through_it() -> None:
    one = pair(studied(radial()), "twig/1", "main/1")
    assert value(one.low) == pytest.approx(1.5 * 30.0)
    assert value(one.high) == pytest.approx(26.0 / 10e-3)
    assert value(one.share) == 1.0


def test_the_upstream_device_carries_what_is_drawn_elsewhere() -> None:
    found = studied(radial())
    assert value(pair(found, "twig/1", "branch/1").other_load) == pytest.approx(5.0)
    assert value(pair(found, "twig/1", "main/1").other_load) == pytest.approx(35.0)
    assert value(pair(found, "branch/1", "main/1").other_load) == pytest.approx(30.0)


def test_where_nothing_hangs_between_it_is_all_one_which_opens() -> None:
    builder = radial()
    found = studied(builder)
    assert not pair(found, "branch/1", "main/1").alone
    builder = Builder().battery("pack", battery("b", (24.0, 26.0), 4e-3)).bus("bar")
    builder.load("motor", 20.0).circuit("main", "pack", "bar", rated("m", 200.0))
    builder.circuit("branch", "bar", "motor", rated("b", 80.0))
    assert pair(studied(builder), "branch/1", "main/1").alone


def bank(*ohms: float) -> Builder:
    """Packs of 26 V beside each other on a bar, each behind its own fuse; a motor on the bar."""
    builder = Builder().bus("bar").load("motor", 20.0)
    for number, one in enumerate(ohms, 1):
        builder.battery(f"pack {number}", battery(f"b{number}", (24.0, 26.0), one))
        builder.circuit(f"lead {number}", f"pack {number}", "bar", rated("f", 100.0), joint(0.0))
    return builder.circuit("branch", "bar", "motor", rated("m", 50.0))


def test_packs_share_a_fault_by_their_conductances() -> None:
    # 4 and 12 mΩ: three quarters and one quarter of 26 V / 3 mΩ = 8 667 A
    found = studied(bank(4e-3, 12e-3))
    assert value(pair(found, "branch/1", "lead 1/1").share) == pytest.approx(0.75)
    assert value(pair(found, "branch/1", "lead 2/1").share) == pytest.approx(0.25)
    assert value(pair(found, "branch/1", "lead 1/1").high) == pytest.approx(26.0 / 3e-3)


def test_the_larger_share_of_both_bounds_counts() -> None:
    # max bound 4 and 4 mΩ: a half each; min bound 4 and 12 mΩ: three quarters through the first
    builder = Builder().bus("bar").load("motor", 20.0)
    builder.battery("stiff", battery("s", (24.0, 26.0), (4e-3, 4e-3)))
    builder.battery("worn", battery("w", (24.0, 26.0), (4e-3, 12e-3)))
    for name in ("stiff", "worn"):
        builder.circuit(f"{name} lead", name, "bar", rated("f", 100.0))
    found = studied(builder.circuit("branch", "bar", "motor", rated("m", 50.0)))
    assert value(pair(found, "branch/1", "stiff lead/1").share) == pytest.approx(0.75)
    assert value(pair(found, "branch/1", "worn lead/1").share) == pytest.approx(0.5)


def test_in_a_bank_each_fuse_lies_under_the_others_for_a_fault_in_its_pack() -> None:
    # fault at pack 1's terminals: packs 2 and 3, 26 V / 4 mΩ each, half of its current each
    found = studied(bank(4e-3, 4e-3, 4e-3))
    one = pair(found, "lead 1/1", "lead 2/1", forward=False)
    assert value(one.share) == pytest.approx(0.5)
    assert value(one.high) == pytest.approx(2 * 26.0 / 4e-3)
    assert ("lead 1/1", "lead 2/1", True) not in names(found)


def test_towards_a_pack_only_faults_flow_so_the_range_begins_with_the_weakest() -> None:
    # min bound: 24 V / 12 mΩ = 2 000 A from the other pack, far above 1.5 × 100 A
    builder = Builder().bus("bar").load("motor", 20.0)
    for number in (1, 2):
        builder.battery(f"pack {number}", battery(f"b{number}", (24.0, 26.0), (4e-3, 12e-3)))
        builder.circuit(f"lead {number}", f"pack {number}", "bar", rated("f", 100.0))
    found = studied(builder)
    assert value(pair(found, "lead 1/1", "lead 2/1", forward=False).low) == pytest.approx(2000.0)


def test_a_limited_source_is_nobodys_upstream_where_batteries_feed() -> None:
    builder = radial().limited("charger", 50.0, 28.0)
    found = studied(builder.circuit("charge", "charger", "bar", rated("c", 80.0)))
    assert not any(one.up.name == "charge/1" for one in found.pairs())
    assert ("charge/1", "main/1", False) in names(found)


def test_behind_a_limited_source_alone_all_of_its_current_counts() -> None:
    builder = Builder().limited("supply", 40.0, 24.0).bus("block").load("radio", 5.0)
    builder.load("lamp", 3.0).circuit("feed", "supply", "block", rated("f", 50.0))
    builder.circuit("lamp", "block", "lamp", joint(1e-3))
    found = studied(builder.circuit("radio", "block", "radio", rated("r", 10.0)))
    one = pair(found, "radio/1", "feed/1")
    assert (value(one.high), value(one.share), value(one.other_load)) == (40.0, 1.0, 0.0)
    result = found.compared(one).result
    assert result is not None
    assert result.standing == "proven"  # the feed fuse carries 40 A for good


def test_an_unknown_resistance_beside_another_way_leaves_the_share_unknown() -> None:
    builder = bank(4e-3, 4e-3)
    builder.circuit("third", "pack 1", "bar", rated("x", 100.0, ohms=None))
    one = pair(studied(builder), "branch/1", "third/1")
    assert isinstance(one.share, Unknown)
    compared = studied(builder).compared(one)
    assert compared.result is None
    assert any("x: resistance" in phrase for phrase in compared.missing)


def test_a_loop_shares_by_its_resistances() -> None:
    # bar A feeds bar B by two ways, 1 and 3 mΩ: three quarters and one quarter of a fault behind B
    builder = Builder().battery("pack", battery("b", (24.0, 26.0), 4e-3)).bus("a", "b")
    builder.load("motor", 20.0).load("lamp", 1.0).circuit("main", "pack", "a", rated("m", 400.0))
    builder.circuit("lamp", "a", "lamp", joint(1e-2))
    builder.circuit("short", "a", "b", rated("s", 100.0), joint(1e-3))
    builder.circuit("long", "a", "b", rated("l", 100.0), joint(3e-3))
    found = studied(builder.circuit("branch", "b", "motor", rated("d", 50.0)))
    assert value(pair(found, "branch/1", "short/1").share) == pytest.approx(0.75)
    assert value(pair(found, "branch/1", "long/1").share) == pytest.approx(0.25)
    assert value(pair(found, "branch/1", "main/1").share) == pytest.approx(1.0)


def test_a_battery_without_any_figure_leaves_its_pairs_unproven() -> None:
    builder = Builder().battery("pack", battery("b", None, None)).bus("bar")
    builder.load("motor", 20.0).load("lamp", 1.0).circuit("lamp", "bar", "lamp", joint(1e-2))
    builder.circuit("main", "pack", "bar", rated("m", 200.0))
    found = studied(builder.circuit("branch", "bar", "motor", rated("d", 50.0)))
    compared = found.compared(pair(found, "branch/1", "main/1"))
    assert compared.result is None
    assert compared.missing


def test_pairs_follow_the_condition() -> None:
    builder = bank(4e-3, 4e-3).condition("one out", without=("pack 2",))
    found = studied(builder, "one out")
    assert value(pair(found, "branch/1", "lead 1/1").share) == pytest.approx(1.0)
    assert ("branch/1", "lead 2/1", True) not in names(found)


def test_electronics_that_may_fail_shorted_are_nobodys_downstream() -> None:
    builder = radial().load("pump", 3.0)
    found = studied(builder.circuit("out", "block", "pump", channel(fails_shorted=True)))
    assert not any(one.down.name == "out/1" for one in found.pairs())


def test_a_clearing_energy_counts_only_within_the_dc_marking() -> None:
    marked = (InterruptRating(14.0, 20e3),)
    builder = radial()
    builder.circuit("spare", "block", "radio", rated("s", 10.0, interrupt_ratings=marked))
    found = studied(builder)
    elements = {each.name: each for each in builder.system().elements()}
    assert found.opening(elements["radio/1"]).clearing_i2t == pytest.approx(100.0)
    assert found.opening(elements["spare/1"]).clearing_i2t is None


def test_heat_moves_the_earliest_opening_and_the_rating_but_not_the_latest() -> None:
    builder = Builder().battery("pack", battery("b", (24.0, 26.0), 4e-3)).load("motor", 20.0)
    hot = rated("m", 200.0, derating=((20.0, 1.0), (30.0, 0.9)))
    builder.circuit("main", "pack", "motor", hot)
    opening = studied(builder).opening(builder.system().elements()[0])
    assert opening.carries == pytest.approx(180.0)
    assert opening.fastest.points[0][0] == pytest.approx(0.9 * 220.0)
    assert opening.slowest.points[0][0] == pytest.approx(300.0)


def test_a_breaker_waits_for_its_current_and_a_fuse_for_its_energy() -> None:
    # a fuse: 1 000 A with τ = 1 ms, 10 000 A²s: 10 ms and 1.5 τ. A breaker that trips within 10 ms:
    # 3 τ until 95 % flow, then its 10 ms: 13 ms, and 1 000² × 13 ms let through at most
    slowest = ((50.0, 100.0), (500.0, 0.04), (1000.0, 0.01))
    flat = ((50.0, 100.0), (500.0, 0.01), (2000.0, 0.01))
    builder = Builder().battery("pack", battery("b", (24.0, 26.0), 4e-3)).load("motor", 20.0)
    builder.circuit("main", "pack", "motor", fuse("f", curve=Curve((), slowest)),
                    breaker("t", curve=Curve((), flat)))  # fmt: skip
    found = studied(builder)
    first, second = builder.system().elements()
    current = Derived("current", "I", 1000.0, "A")
    rise = Derived("time constant", "τ", 1e-3, "s")
    melting = found.clearing(first, current, rise)
    assert value(melting.time) == pytest.approx(0.0115, rel=1e-3)
    assert value(melting.let_through) == pytest.approx(1e4)
    trip = found.clearing(second, current, rise)
    assert value(trip.time) == pytest.approx(0.013)
    assert value(trip.let_through) == pytest.approx(1.3e4)
