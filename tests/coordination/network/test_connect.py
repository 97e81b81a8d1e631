"""From the model to a network: points, loops, bounds, conditions."""

from __future__ import annotations

from dataclasses import replace

import pytest

from coordination.model import Return
from coordination.network import connect
from coordination.trace import Derived, Unknown, Value
from tests.coordination.study.hand_made import (
    Builder,
    battery,
    cable,
    channel,
    fuse,
    joint,
    run,
    switch,
)

PACK = battery("pack", (25.6, 27.2), (3e-3, 5e-3))


def number(value: Value) -> float:
    assert isinstance(value, Derived), value
    return value.value


def one_circuit(*parts: object) -> Builder:
    builder = Builder().battery("pack", PACK).load("lamp", 1.0)
    return builder.circuit("a", "pack", "lamp", *parts)


def test_points_and_junctions() -> None:
    builder = one_circuit(fuse(), joint(1e-3)).bus("bus").converter("charger")
    builder.circuit("b", "bus", "charger.input", fuse())
    network = connect(builder.system())
    assert network.points == ("pack", "bus", "lamp", "charger.input", "charger.output", "a@1")
    assert [(b.start, b.end) for b in network.branches] == [(0, 5), (5, 2), (1, 3)]


def test_loop_of_a_cable_and_its_way_back() -> None:
    # 2 m of 1 mΩ/m there; back: the same, 3 m of 2 mΩ/m twice side by side, or 1.5 mΩ of chassis.
    wire, other = cable("wire", 1e-3), cable("other", 2e-3)
    back = Return(kind="cable", part=other, length=3.0, runs=2)
    chassis = Return(kind="path", resistance=1.5e-3)
    network = connect(
        one_circuit(
            run(wire, 2.0),
            run(wire, 2.0, return_path=back),
            run(wire, 2.0, return_path=chassis),
            run(wire, 2.0, runs=4),
            run(wire, 2.0, return_path=Return(kind="none")),
        ).system()
    )
    assert [b.low for b in network.branches] == pytest.approx([4e-3, 5e-3, 3.5e-3, 1e-3, 2e-3])
    assert [b.high for b in network.branches[:4]] == pytest.approx([4e-3, 5e-3, 3.5e-3, 1e-3])
    assert network.branches[4].missing == ("a/5: resistance of the return path",)
    for branch in network.branches:
        assert number(network.loops.low(branch.element)) == branch.low
    for branch in network.branches[:4]:
        assert number(network.loops.high(branch.element)) == branch.high
    assert isinstance(network.loops.high(network.branches[4].element), Unknown)


def test_hot_and_cold() -> None:
    """IEC 60228 law: × (234.5 + 90) / 254.5 = 1.27505 on the largest figure at 20 °C."""
    network = connect(one_circuit(run(cable("w", (1e-3, 1.1e-3), 90.0), 1.0)).system())
    assert network.branches[0].low == pytest.approx(2e-3)
    assert network.branches[0].high == pytest.approx(2 * 1.1e-3 * 1.27505, rel=1e-5)


def test_derived_from_the_area() -> None:
    """70 mm²: 17.241 / 70 = 0.24630 mΩ/m at least; class 5 tinned at most 0.277 mΩ/m (from memory).

    50 mm² of no class: at most 1.04 × 17.241 / 50.
    """
    classed = cable("c", None, 20.0, area=70e-6, stranding="class 5 tinned")
    plain = cable("p", None, 20.0, area=50e-6)
    network = connect(one_circuit(run(classed, 1.0), run(plain, 1.0)).system())
    assert network.branches[0].low == pytest.approx(2 * 0.246300e-3, rel=1e-5)
    assert network.branches[0].high == pytest.approx(2 * 0.277e-3)
    assert network.branches[1].high == pytest.approx(2 * 1.04 * 17.241e-3 / 50)


def test_devices_in_both_bounds() -> None:
    network = connect(
        one_circuit(
            fuse("f", (1e-4, 3e-4)), switch("s", None), channel("c"), joint(1e-3, 2e-3)
        ).system()
    )
    assert [b.low for b in network.branches] == [1e-4, 0.0, 0.0, 1e-3]
    assert [b.high for b in network.branches] == [3e-4, 0.0, 0.0, 2e-3]
    assert [b.missing for b in network.branches] == [(), ("s: resistance",), ("c: resistance",), ()]


def test_inductance_of_a_touching_pair() -> None:
    """16 mm², 4 m: published 0.542 µH/m for touching cables of a slightly thicker insulation."""
    network = connect(one_circuit(run(cable("w", 1e-3, area=16e-6), 4.0)).system())
    assert network.branches[0].inductance == pytest.approx(4 * 0.542e-6, rel=0.07)
    spaced = connect(one_circuit(run(cable("w", 1e-3, area=16e-6), 4.0, spacing=0.05)).system())
    assert spaced.branches[0].inductance == pytest.approx(4 * 1.290e-6, rel=1e-3)


def test_overlapping_conductors_are_unknown() -> None:
    network = connect(one_circuit(run(cable("w", 1e-3, area=50e-6), 1.0, spacing=1e-3)).system())
    assert network.branches[0].inductance == 0.0
    assert "a/1" in network.branches[0].uncoupled[0]


def test_conditions() -> None:
    builder = one_circuit({"part": switch(), "name": "isolator"}, joint(1e-3))
    builder.circuit(
        "link", "pack", "lamp", {"part": switch(), "name": "link switch", "normally_open": True}
    )
    builder.limited("solar", 10.0, 28.0)
    builder.condition("linked", close=("link switch",), open=("isolator",), draw={"lamp": 0.5})
    builder.condition("bare", without=("pack", "solar", "lamp", "a"))
    system = builder.system()
    normal, linked, bare = (connect(system, name) for name in ("normal", "linked", "bare"))
    assert [e.name for e in normal.open_elements] == ["link switch"]
    assert [e.name for e in linked.open_elements] == ["isolator"]
    assert number(linked.draws[0].current) == 0.5
    assert [e.name for e in bare.open_elements] == ["isolator", "a/2", "link switch"]
    assert (bare.feeds, bare.injections, bare.draws) == ((), (), ())
    with pytest.raises(KeyError):
        connect(system, "no such condition")


def test_what_is_drawn() -> None:
    """3000 W / 0.9 / 22.0 V = 151.5 A; a converter 40 A × 28.4 V / (0.92 × 22 V) = 56.1 A."""
    builder = Builder().load("inverter", power=3000.0, efficiency=0.9, min_voltage=22.0)
    builder.converter(
        "charger", output_current=40.0, output_voltage=28.4, efficiency=0.92, min_input_voltage=22.0
    )
    builder.converter("half told", output_current=40.0, output_voltage=28.4)
    network = connect(builder.system())
    assert number(network.draws[0].current) == pytest.approx(151.515, abs=1e-3)
    assert number(network.draws[1].current) == pytest.approx(56.126, abs=1e-3)
    assert isinstance(network.draws[2].current, Unknown)
    assert number(network.injections[0].limit) == 40.0


def test_declared_short_circuit_current_beside_a_resistance() -> None:
    """The stronger of the two counts: 27.2 V / 10 kA = 2.72 mΩ against 3 mΩ stated."""
    part = battery("pack", (25.6, 27.2), (3e-3, 5e-3), short_circuit_current=10_000.0)
    feed = connect(Builder().battery("pack", part).system()).feeds[0]
    assert number(feed.resistance_low) == pytest.approx(2.72e-3)
    assert number(feed.resistance_high) == 5e-3
    weak = battery("pack", (25.6, 27.2), (3e-3, 5e-3), short_circuit_current=5_000.0)
    feed = connect(Builder().battery("pack", weak).system()).feeds[0]
    assert number(feed.resistance_low) == 3e-3


def test_the_band_around_a_single_resistance_is_marked_as_assumed() -> None:
    # By hand: 3.2 mΩ less 15 % is 2.72 mΩ, and 60 % more is 5.12 mΩ.
    single = replace(
        battery("pack", (25.6, 27.2), (2.72e-3, 5.12e-3)),
        written={"resistance": "3.2 mΩ", "resistance.assumed": "-15 % / +60 %"},
    )
    builder = Builder().battery("pack", single).load("lamp", 1.0)
    (feed,) = connect(builder.circuit("a", "pack", "lamp", fuse()).system()).feeds
    ends = [(feed.resistance_low, 2.72e-3, "0.85"), (feed.resistance_high, 5.12e-3, "1.60")]
    for end, ohms, share in ends:
        assert isinstance(end, Derived)
        assert end.value == pytest.approx(ohms)
        assert "assumed band -15 % / +60 %" in end.quantity
        assert end.formula == f"{share} × R_n"
        assert end.inputs[0].value == pytest.approx(3.2e-3)
