"""Systems worked out by hand: the arithmetic stands beside each expected figure."""

from __future__ import annotations

import pytest

from coordination.trace import Derived, Unknown
from tests.coordination.study.by_hand import (
    MILLI,
    element,
    number,
    radial_feeder,
    studied,
    two_packs,
)
from tests.coordination.study.hand_made import (
    Builder,
    battery,
    fuse,
    joint,
)


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
