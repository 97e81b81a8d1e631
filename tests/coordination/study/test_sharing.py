"""How unequal packs, leads and chargers share what is drawn, worked out by hand."""

from __future__ import annotations

import pytest

from tests.coordination.study.by_hand import (
    MILLI,
    element,
    number,
    studied,
    two_packs,
)
from tests.coordination.study.hand_made import (
    Builder,
    battery,
    fuse,
    joint,
)


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
