"""The figures of generic cables, bars, switches and batteries against published rows.

"read" and "from memory" say how the row was had.
"""

from __future__ import annotations

import math

import pytest


@pytest.mark.parametrize(
    ("part_id", "mm2", "least", "largest"),
    [
        # ASTM B258: 4/0 is 107.219 mm²; 17.241 / 107.219 = 0.16080 Ω/km; × 1.04 = 0.16723
        ("cable-4/0-awg-105c", 107.219, 0.16080, 0.16723),
        # 14 AWG 2.0809 mm²: 8.2853 Ω/km; × 1.04 = 8.6167
        ("cable-14-awg-90c", 2.0809, 8.2853, 8.6167),
        # NEC chapter 9 table 8 (read): coated 14 AWG 3.26 Ω/kft at 75 °C
        # = 10.6955 Ω/km × 254.5/309.5 = 8.7949
        ("cable-14-awg-105c-tinned", 2.0809, 8.2853, 8.7949),
        # IEC 60228:2004 class 5 (from memory): 70 mm² 0.272 plain, 0.277 tinned; 1.5 mm² 13.3
        ("cable-70mm2-90c", 70.0, 17.241 / 70, 0.272),
        ("cable-70mm2-90c-tinned", 70.0, 17.241 / 70, 0.277),
        ("cable-1.5mm2-70c", 1.5, 17.241 / 1.5, 13.3),
    ],
)
def test_cables(catalogue, part_id, mm2, least, largest):
    part = catalogue.get(part_id)
    assert part.area * 1e6 == pytest.approx(mm2, rel=1e-4)
    assert part.resistance_20c.min * 1e3 == pytest.approx(least, rel=1e-3)
    assert part.resistance_20c.max * 1e3 == pytest.approx(largest, rel=1e-3)
    # Rounding goes outwards: the lower bound is never above the true one.
    assert part.resistance_20c.min <= 0.017241e-6 / part.area
    if not part_id.endswith("tinned") and part.awg:
        assert part.resistance_20c.max >= 1.04 * 0.017241e-6 / part.area


@pytest.mark.parametrize(
    ("system", "sizes", "temperatures"),
    [
        ("-awg", ["18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0",
                  "4/0"], [60, 75, 90, 105, 125, 200]),
        ("mm2", ["1", "1.5", "2.5", "4", "6", "10", "16", "25", "35", "50", "70", "95", "120"],
         [60, 70, 75, 90, 105, 125, 200]),
    ],
)  # fmt: skip
def test_every_size_comes_in_every_insulation(catalogue, system, sizes, temperatures):
    for size in sizes:
        for celsius in temperatures:
            part = catalogue.get(f"cable-{size}{system}-{celsius}c")
            assert part.insulation_temperature == celsius


def test_cable_voltages_are_stated_only_where_a_standard_gives_one(catalogue):
    assert catalogue.get("cable-4/0-awg-105c").voltage == 600.0
    assert catalogue.get("cable-70mm2-70c").voltage == 450.0
    assert catalogue.get("cable-70mm2-125c").voltage is None
    assert catalogue.get("cable-4/0-awg-200c").voltage is None


#: DIN 43671, bare copper, 35 °C air, 65 °C bar [A]; the last column: read in a secondary copy.
BARS = [
    ("bar-12x2", 108, False), ("bar-15x3", 162, True), ("bar-20x5", 274, True),
    ("bar-30x5", 379, True), ("bar-40x10", 715, True), ("bar-80x5", 885, False),
    ("bar-100x10", 1490, True), ("bar-120x10", 1740, True),
]  # fmt: skip


@pytest.mark.parametrize(("part_id", "amperes", "read"), BARS)
def test_bars(catalogue, part_id, amperes, read):
    part = catalogue.get(part_id)
    width, thickness = (float(size) for size in part_id.removeprefix("bar-").split("x"))
    assert part.rated_current == amperes
    assert (part.width * 1e3, part.thickness * 1e3) == pytest.approx((width, thickness))
    assert part.status == ("reviewed" if read else "draft")
    # Published: 137.66 A·√s/mm² from 65 to 200 °C (a 30 × 5 bar: 20 648 A for 1 s).
    assert part.short_time.current == pytest.approx(137.655 * width * thickness, rel=1e-4)
    assert part.short_time.time == 1.0
    assert part.voltage is None


def test_bar_ratings_follow_the_empirical_formula(catalogue):
    # CDA publication 22, formula 4 (read): 7.73 S^0.5 p^0.39 for a bar of 90 °C at 50 K rise; to
    # 30 K by the power 0.61 (from memory), to 65 °C by the resistance of copper. Published: it
    # reproduces DIN 43671 within -3.6 to +2.6 %.
    colder = math.sqrt((234.5 + 90) / (234.5 + 65))
    for part_id in catalogue.ids("busbar"):
        part = catalogue.get(part_id)
        width, thickness = part.width * 1e3, part.thickness * 1e3
        area, perimeter = width * thickness, 2 * (width + thickness)
        formula = 7.73 * math.sqrt(area) * perimeter**0.39 * (30 / 50) ** 0.61
        assert -0.037 < formula * colder / part.rated_current - 1 < 0.027, part_id


def test_switches_by_class(catalogue):
    # IEC 60947-3 (from memory): DC-21 breaks 1.5 Ie, DC-22 4 Ie; withstands 12 Ie for 1 s.
    part = catalogue.get("switch-dc21-200")
    assert (part.breaking.current, part.breaking.voltage) == (300.0, 60.0)
    assert (part.withstand.current, part.withstand.time) == (2400.0, 1.0)
    assert catalogue.get("switch-dc22-200").breaking.current == 800.0
    assert catalogue.get("contactor-dc1-200").remote is True
    assert catalogue.get("switch-300").voltage is None
    assert catalogue.get("switch-600").breaking is None


def test_batteries_are_invented_and_say_so(catalogue):
    for part_id in catalogue.ids("battery"):
        part = catalogue.get(part_id)
        assert part.description.startswith("invented")
        assert part.status == "draft"
    pack = catalogue.get("battery-lfp-24v-230")
    # By hand, from ranges of cells (from memory): 8 × 3.2 V, 8 × 3.4 V, 8 × 3.65 V;
    # 8 × 30 mΩ·Ah / 230 Ah = 1.043 mΩ, 8 × 150 / 230 = 5.217 mΩ.
    assert (pack.emf.min, pack.emf.max, pack.charge_voltage) == pytest.approx((25.6, 27.2, 29.2))
    assert pack.resistance.min == pytest.approx(1.043e-3, rel=1e-3)
    assert pack.resistance.max == pytest.approx(5.217e-3, rel=1e-3)
