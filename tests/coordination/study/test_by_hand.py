"""Systems worked out by hand: the arithmetic stands beside each expected figure."""

from __future__ import annotations

import pytest

from coordination.model import Element
from coordination.network import connect
from coordination.study import Study, study
from coordination.trace import Derived, Unknown, Value
from tests.coordination.study.hand_made import (
    Builder,
    battery,
    cable,
    fuse,
    joint,
    run,
    switch,
)

MILLI = 1e-3


def number(value: Value) -> float:
    assert isinstance(value, Derived), value
    return value.value


def element(found: Study, name: str) -> Element:
    return next(e for e in found.subjects("element") if e.name == name)


def studied(builder: Builder, condition: str = "normal") -> Study:
    return study(connect(builder.system(), condition))


def radial_feeder() -> Builder:
    """A bank of 16 cells, a main and two branches one behind the other, 90 °C insulation."""
    builder = Builder(nominal_voltage=48.0)
    builder.battery("bank", battery("sixteen cells", (51.2, 54.4), (12 * MILLI, 18 * MILLI)))
    builder.bus("busbar").load("A", 20.0).load("B", 5.0)
    # IEC 60228 class 5 tinned at 20 °C (from memory): 0.277, 1.24 and 8.21 Ω/km.
    builder.circuit(
        "main",
        "bank",
        "busbar",
        run(cable("70", 0.277 * MILLI, 90.0), 1.5),
        fuse("main fuse", 0.30 * MILLI),
        joint(4 * 0.03 * MILLI),
        switch("main switch", 0.20 * MILLI),
    )
    builder.circuit(
        "a",
        "busbar",
        "A",
        run(cable("16", 1.24 * MILLI, 90.0), 4.0),
        fuse("fuse a", 0.80 * MILLI),
        joint(4 * 0.05 * MILLI),
    )
    builder.circuit(
        "b", "A", "B", run(cable("2.5", 8.21 * MILLI, 90.0), 6.0), fuse("fuse b", 3.0 * MILLI)
    )
    return builder


@pytest.mark.parametrize(
    ("point", "loop_cold", "fault_cold", "loop_hot", "fault_hot"),
    [
        # mΩ: 12, + 2 × 1.5 × 0.277 + 0.3 + 0.12 + 0.2, + 2 × 4 × 1.24 + 0.8 + 0.2,
        # + 2 × 6 × 8.21 + 3; hot: battery 18, cables × 324.5 / 254.5, the rest as cold.
        # Currents: 54.4 V and 51.2 V over these. Printed with four digits.
        ("bank", 12.00, 4533, 18.00, 2844),
        ("busbar", 13.45, 4044, 19.68, 2602),
        ("A", 24.37, 2232, 33.33, 1536),
        ("B", 125.9, 432, 161.9, 316),
    ],
)
def test_radial_feeder(
    point: str, loop_cold: float, fault_cold: float, loop_hot: float, fault_hot: float
) -> None:
    found = studied(radial_feeder())
    most, least = found.fault_max(point), found.fault_min(point)
    assert number(most) == pytest.approx(fault_cold, abs=0.5)
    assert number(least) == pytest.approx(fault_hot, abs=0.5)
    assert isinstance(most, Derived)
    assert isinstance(least, Derived)
    assert most.inputs[1].value * 1e3 == pytest.approx(loop_cold, rel=5e-4)
    assert least.inputs[1].value * 1e3 == pytest.approx(loop_hot, rel=5e-4)


def test_radial_feeder_through_its_devices() -> None:
    found = studied(radial_feeder())
    # The main fuse sees the bank and its 1.5 m: 54.4 V / (12 + 0.831) mΩ.
    assert number(found.duty(element(found, "main/2"))) == pytest.approx(4239.7, abs=0.1)
    # Hot, it must clear a fault just ahead of the next fuse: before fuse a, at the end of 4 m.
    # 51.2 V / (19.680 + 2 × 4 × 1.24 × 1.27505) mΩ = 51.2 / 32.328
    assert number(found.fault_min_through(element(found, "main/2"))) == pytest.approx(
        1583.8, abs=0.2
    )
    # Fuse a protects up to fuse b: its own rest, the joint, and 6 m of 2.5 mm².
    # 51.2 V / (33.328 + 2 × 6 × 8.21 × 1.27505) mΩ = 51.2 / 158.946
    assert number(found.fault_min_through(element(found, "a/2"))) == pytest.approx(322.12, abs=0.05)
    assert number(found.load(element(found, "main/2"))) == pytest.approx(25.0)
    assert number(found.load(element(found, "b/2"))) == pytest.approx(5.0)
    # 25 A × 1.67957 mΩ + 25 A × 13.64848 mΩ + 5 A × 128.618 mΩ, from the bank's terminals.
    drop = found.drop(found.system.equipment["B"])
    assert number(drop) == pytest.approx(0.041989 + 0.341212 + 0.643089, abs=1e-5)
    # At the terminals 51.2 V − 25 A × 18 mΩ.
    assert number(found.load_voltage("bank")) == pytest.approx(50.75)


def two_packs() -> Builder:
    """Two 24 V packs of 3.2 mΩ (−15 % / +60 %), a lead and a fuse each, one main.

    Leads: 70 mm², 0.5 + 0.5 m; main: 95 mm², 0.6 + 0.6 m, and a switch of 0.25 mΩ at most.
    Copper of 0.01724 Ω·mm²/m: 0.24629 mΩ and 0.21777 mΩ of loop.
    """
    builder = Builder(nominal_voltage=24.0)
    pack = battery(
        "pack", (26.8, 27.2), (0.85 * 3.2 * MILLI, 1.6 * 3.2 * MILLI), charge_voltage=28.8
    )
    lead = cable("70", 17.24e-3 / 70)
    builder.bus("bus", "main bus").load("inverter", 152.0).load("pumps", 35.0)
    for name in ("port", "starboard"):
        builder.battery(name, pack)
        builder.circuit(f"{name} feed", name, "bus", fuse("pack fuse", 0.0), run(lead, 0.5))
    builder.circuit(
        "main",
        "bus",
        "main bus",
        run(cable("95", 17.24e-3 / 95), 0.6),
        fuse("main fuse", 0.0),
        switch("switch", (0.0, 0.25 * MILLI)),
    )
    builder.circuit("inverter feed", "main bus", "inverter", fuse("250", 0.0), joint(1.0 * MILLI))
    builder.circuit("pump feed", "main bus", "pumps", fuse("50", 0.0), joint(7.0 * MILLI))
    return builder


def test_two_packs_in_parallel() -> None:
    found = studied(two_packs())
    # Own short circuit 27.2 V / 2.72 mΩ = 10 000 A; with the other pack through both leads:
    # 27.2 / (2.72 + 2 × 0.24629) mΩ = 8466.8 A more.
    assert number(found.fault_max("port")) == pytest.approx(10_000 + 8466.8, abs=1)
    # A pack's fuse: its own 10 000 A on the pack's side; on the other, the other pack's 8466.8 A.
    assert number(found.duty(element(found, "port feed/1"))) == pytest.approx(10_000, abs=0.1)
    # At the bus each gives 27.2 / (2.72 + 0.24629) = 9169.7 A.
    assert number(found.fault_max("bus")) == pytest.approx(2 * 9169.7, abs=1)
    # Main bus: 27.2 / (2.96629 / 2 + 0.21777) mΩ.
    assert number(found.fault_max("main bus")) == pytest.approx(27.2 / 1.700915e-3, abs=2)
    assert number(found.duty(element(found, "inverter feed/1"))) == pytest.approx(
        27.2 / 1.700915e-3, abs=2
    )


def test_sum_of_one_pack_and_its_main_at_nominal_figures() -> None:
    """8.5 kA at a pack, 12.1 kA at the main bus: published trade example, nominal figures.

    27.2 V / ((3.2 + 0.246) / 2 + 0.218 + 0.25 switch + 0.05 of fuses) mΩ = 12.1 kA
    """
    builder = Builder(nominal_voltage=24.0)
    builder.bus("bus", "main bus")
    for name in ("port", "starboard"):
        builder.battery(name, battery("pack", 27.2, 3.2 * MILLI))
        builder.circuit(f"{name} feed", name, "bus", joint(0.246 * MILLI))
    builder.circuit("main", "bus", "main bus", joint(0.218 * MILLI), joint(0.30 * MILLI))
    found = studied(builder)
    alone = 27.2 / 3.2e-3
    assert alone == pytest.approx(8500)
    assert number(found.duty(element(found, "port feed/1"))) == pytest.approx(alone)
    assert number(found.fault_max("main bus")) == pytest.approx(12_136, abs=2)


def test_packs_share_a_load_equally() -> None:
    found = studied(two_packs())
    assert number(found.load(element(found, "port feed/1"))) == pytest.approx(187 / 2)
    assert number(found.load(element(found, "main/2"))) == pytest.approx(187)
    assert number(found.battery_current(found.system.sources["port"])) == pytest.approx(93.5)
    bus = found.system.busbars["bus"]
    assert number(found.incoming(bus)) == pytest.approx(187)
    assert number(found.outgoing(bus)) == pytest.approx(187)


@pytest.mark.parametrize(
    ("pack", "leads", "expected"),
    [
        # Conductances 1 / (2 + lead) mΩ share 300 A. 70 mm² of 0.01724 Ω·mm²/m gives 0.24629 mΩ
        # a metre of loop: leads of 0.6, 1.4 and 2.2 m of loop are 0.1478, 0.3448 and 0.5418 mΩ.
        # 1/2.1478 = 0.46559, 1/2.3448 = 0.42648, 1/2.5418 = 0.39342; sum 1.28549
        # -> 108.66, 99.53, 91.81 A
        (2.0, (0.1478, 0.3448, 0.5418), (108.66, 99.53, 91.81)),
        # Published 112 / 99 / 89 A at 2 mΩ each: leads of 0.37 mΩ a metre of loop (47 mm²)
        # give it: 0.222, 0.518, 0.814: 1/2.222 = 0.45005, 1/2.518 = 0.39714, 1/2.814 = 0.35537,
        # sum 1.20256 -> 112.27, 99.07, 88.65 A
        (2.0, (0.222, 0.518, 0.814), (112.27, 99.07, 88.65)),
    ],
)
def test_unequal_leads(pack: float, leads: tuple[float, ...], expected: tuple[float, ...]) -> None:
    builder = Builder(nominal_voltage=24.0).bus("bus").load("inverter", 300.0)
    for number_, lead in enumerate(leads):
        builder.battery(f"pack {number_}", battery("pack", 26.0, pack * MILLI))
        builder.circuit(f"lead {number_}", f"pack {number_}", "bus", joint(lead * MILLI))
    builder.circuit("out", "bus", "inverter", joint(1 * MILLI))
    found = studied(builder)
    for number_, amps in enumerate(expected):
        assert number(found.load(element(found, f"lead {number_}/1"))) == pytest.approx(
            amps, abs=0.01
        )


def test_daisy_chained_packs() -> None:
    """Packs of 1 mΩ along a bus with links: most flows from the nearest (142 / 91 / 67 A).

    Links a, b, c of 0.2, 0.5 and 0.5 mΩ between load and packs 1, 2, 3: with the last pack's
    current I, the next must give I (1 + 0.5) / 1 = 1.5 I, and the first
    1.5 I + (I + 1.5 I) × 0.5 = 2.75 I; 300 A = 5.25 I -> 57.14, 85.71, 157.14 A.
    """
    builder = Builder(nominal_voltage=12.0).bus("one", "two", "three").load("inverter", 300.0)
    for number_, bus in enumerate(("one", "two", "three"), 1):
        builder.battery(f"pack {number_}", battery("pack", 13.0, 1 * MILLI))
        builder.circuit(f"lead {number_}", f"pack {number_}", bus, fuse("f", 0.0))
    builder.circuit("a", "inverter", "one", joint(0.2 * MILLI))
    builder.circuit("b", "one", "two", joint(0.5 * MILLI))
    builder.circuit("c", "two", "three", joint(0.5 * MILLI))
    found = studied(builder)
    for number_, amps in enumerate((157.143, 85.714, 57.143), 1):
        assert number(found.load(element(found, f"lead {number_}/1"))) == pytest.approx(
            amps, abs=1e-3
        )


def test_limited_source_adds_to_the_largest_fault_only() -> None:
    builder = two_packs().limited("alternator", 80.0, 28.2)
    builder.circuit("alternator lead", "alternator", "main bus", fuse("100", 0.0), joint(1 * MILLI))
    found = studied(builder)
    base = 27.2 / 1.700915e-3
    assert number(found.fault_max("main bus")) == pytest.approx(base + 80, abs=2)
    assert number(found.fault_min("main bus")) == pytest.approx(
        number(studied(two_packs()).fault_min("main bus"))
    )
    # Charging alone is the most that its own lead carries.
    assert number(found.load(element(found, "alternator lead/1"))) == pytest.approx(80)
    # 152 + 35 A from the packs without the alternator's help.
    assert number(found.load(element(found, "main/2"))) == pytest.approx(187)


def test_ring_of_two_equal_cables() -> None:
    """A bus fed by two equal cables side by side: half the resistance, half the current each.

    10 V / (1 + 2 / 2) mΩ = 5000 A. A device at the far end of one cable, both terminals shorted:
    from the cable's own side 10 V over 1 mΩ shared by 2 and 2 mΩ: 10 / (1 + 1) / 2 = 2500 A.
    """
    builder = Builder().battery("pack", battery("pack", 10.0, 1 * MILLI)).bus("bus", "far")
    builder.circuit("in", "pack", "bus", fuse("f", 0.0))
    builder.circuit("one", "bus", "far", joint(2 * MILLI), fuse("f1", 0.0))
    builder.circuit("two", "bus", "far", joint(2 * MILLI), fuse("f2", 0.0))
    found = studied(builder)
    assert number(found.fault_max("far")) == pytest.approx(5000)
    assert number(found.duty(element(found, "one/2"))) == pytest.approx(2500)
    # The least it must clear: a fault at "far", half of the 5000 A. At the start of its own cable
    # a fault is fed round by the other: 10 V / 1 mΩ first, and 2 + 2 mΩ beside it, none at the bus.
    assert number(found.fault_min_through(element(found, "one/2"))) == pytest.approx(2500)


def test_time_constant_of_one_loop() -> None:
    """L / R by hand: 2.87 µH over 24.37 mΩ is 0.12 ms (the feeder's branch A).

    Its cables state 0.465 and 0.542 µH/m there; areas and insulation of this test's cables give
    the same within 6 %.
    """
    builder = radial_feeder()
    parts = {"70": 70e-6, "16": 16e-6, "2.5": 2.5e-6}
    builder = Builder(nominal_voltage=48.0)
    builder.battery("bank", battery("b", 54.4, 12 * MILLI)).bus("busbar").load("A", 1.0)
    builder.circuit(
        "main",
        "bank",
        "busbar",
        run(cable("70", 0.277 * MILLI, area=parts["70"]), 1.5),
        joint(0.62 * MILLI),
    )
    builder.circuit(
        "a",
        "busbar",
        "A",
        run(cable("16", 1.24 * MILLI, area=parts["16"]), 4.0),
        joint(1.0 * MILLI),
    )
    found = studied(builder)
    assert number(found.time_constant("A")) == pytest.approx(2.87e-6 / 24.37e-3, rel=0.06)


def test_time_constant_of_a_looped_network_is_the_rise_of_impedance() -> None:
    """Two equal cables side by side have half the inductance and half the resistance."""
    wire = cable("w", 1 * MILLI, area=50e-6)
    single = Builder().battery("pack", battery("p", 10.0, 1 * MILLI)).bus("far")
    single.circuit("one", "pack", "far", run(wire, 2.0))
    double = Builder().battery("pack", battery("p", 10.0, 1 * MILLI)).bus("far")
    double.circuit("one", "pack", "far", run(wire, 2.0))
    double.circuit("two", "pack", "far", run(wire, 2.0))
    lone, pair = studied(single), studied(double)
    # L/R: L / (1 + 4) mΩ against (L / 2) / (1 + 2) mΩ: 5 / 6 of the single one's.
    assert number(pair.time_constant("far")) == pytest.approx(
        5 / 6 * number(lone.time_constant("far")), rel=1e-4
    )


def test_declared_short_circuit_current_only() -> None:
    """R_min = 27.2 V / 8500 A = 3.2 mΩ; nothing is known of the least fault current."""
    pack = battery("pack", (25.6, 27.2), None, short_circuit_current=8500.0)
    builder = Builder().battery("pack", pack).bus("bus").load("pump", 10.0)
    builder.circuit("feed", "pack", "bus", fuse("f", 0.0), joint(0.8 * MILLI))
    builder.circuit("out", "bus", "pump", joint(1.0 * MILLI))
    found = studied(builder)
    assert number(found.fault_max("bus")) == pytest.approx(27.2 / 4e-3)
    least = found.fault_min("bus")
    assert isinstance(least, Unknown)
    assert least.missing == ("pack: resistance",)
    # One battery: what is drawn is what flows, whatever its resistance; and 10 A × 1.8 mΩ is lost.
    assert number(found.load(element(found, "feed/1"))) == pytest.approx(10.0)
    assert number(found.drop(found.system.equipment["pump"])) == pytest.approx(0.018)
    assert isinstance(found.load_voltage("pump"), Unknown)


def test_unequal_batteries_feed_one_another_when_nothing_draws() -> None:
    # (25 V − 24 V) / (5 mΩ + 5 mΩ) is 100 A. With 10 A drawn where they meet, that point is at
    # (4800 A + 5000 A − 10 A) / (200 S + 200 S) = 24.475 V: 105 A come from one, 95 A go to the
    # other.
    builder = Builder().battery("weak", battery("w", (24.0, 25.0), (4e-3, 5e-3)))
    builder.battery("strong", battery("s", (25.0, 26.0), (4e-3, 5e-3)))
    builder.bus("bar").load("lamp", 10.0)
    builder.circuit("w", "weak", "bar", fuse("weak fuse", 0.0))
    builder.circuit("s", "strong", "bar", fuse("strong fuse", 0.0))
    builder.circuit("l", "bar", "lamp", fuse("lamp fuse", 0.0))
    found = studied(builder)
    assert number(found.load(element(found, "w/1"))) == pytest.approx(100.0)
    assert number(found.load(element(found, "s/1"))) == pytest.approx(105.0)
    assert number(found.load(element(found, "l/1"))) == pytest.approx(10.0)


def test_at_rest_unequal_banks_may_drive_more_than_with_loads_and_chargers() -> None:
    # (25 V − 24 V) / (5 mΩ + 10 mΩ + 5 mΩ) is 50 A. What the strong side's lamp draws and the weak
    # side's charger gives both take from it: 47.5 A with 10 A drawn, 45 A with 20 A given.
    builder = Builder().battery("weak", battery("w", (24.0, 25.0), (4e-3, 5e-3)))
    builder.battery("strong", battery("s", (25.0, 26.0), (4e-3, 5e-3)))
    builder.load("lamp", 10.0).limited("charger", 20.0, 27.0)
    builder.circuit("link", "strong", "weak", joint(10e-3))
    builder.circuit("l", "strong", "lamp", fuse("lamp fuse", 0.0))
    builder.circuit("c", "charger", "weak", fuse("charger fuse", 0.0))
    found = studied(builder)
    assert number(found.load(element(found, "link/1"))) == pytest.approx(50.0)
