"""Time constants worked out by hand."""

from __future__ import annotations

import pytest

from tests.coordination.study.by_hand import (
    MILLI,
    number,
    radial_feeder,
    studied,
)
from tests.coordination.study.hand_made import (
    Builder,
    battery,
    cable,
    joint,
    run,
)


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
