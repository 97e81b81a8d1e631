"""Two systems that are worked out by hand, and how their figures are read."""

from __future__ import annotations

from coordination.model import Element
from coordination.network import connect
from coordination.study import Study, study
from coordination.trace import Derived, Value
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
