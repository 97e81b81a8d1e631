"""The pack's tables, cell by cell, against the published rows, asked through what the rules use.

Sources: NFPA 70:2023 Tables 310.16, 310.17, 310.15(B)(1)(1), 310.15(C)(1), as published; 240.6(A),
551.10(E)(1) and two rows of 240.4(D) from memory.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from fusewright_us_premises import tables
from fusewright_us_premises.ampacity import corrected
from fusewright_us_premises.editions import Y2023

from coordination.rules import DEFINITION, Derived, Installation, Unknown, Value, given
from coordination.testing import a_leg

#: Size, then 60, 75 and 90 °C.
RACEWAY = """
18 - - 14
16 - - 18
14 15 20 25
12 20 25 30
10 30 35 40
8 40 50 55
6 55 65 75
4 70 85 95
3 85 100 115
2 95 115 130
1 110 130 145
1/0 125 150 170
2/0 145 175 195
3/0 165 200 225
4/0 195 230 260
250 215 255 290
300 240 285 320
350 260 310 350
400 280 335 380
500 320 380 430
600 350 420 475
700 385 460 520
750 400 475 535
800 410 490 555
900 435 520 585
1000 455 545 615
1250 495 590 665
1500 525 625 705
1750 545 650 735
2000 555 665 750
"""

FREE_AIR = """
18 - - 18
16 - - 24
14 25 30 35
12 30 35 40
10 40 50 55
8 60 70 80
6 80 95 105
4 105 125 140
3 120 145 165
2 140 170 190
1 165 195 220
1/0 195 230 260
2/0 225 265 300
3/0 260 310 350
4/0 300 360 405
250 340 405 455
300 375 445 500
350 420 505 570
400 455 545 615
500 515 620 700
600 575 690 780
700 630 755 850
750 655 785 885
800 680 815 920
900 730 870 980
1000 780 935 1055
1250 890 1065 1200
1500 980 1175 1325
1750 1070 1280 1445
2000 1155 1385 1560
"""

#: Warmest air of the range [°C], then the factor for 60, 75 and 90 °C.
AMBIENT = """
10 1.29 1.20 1.15
15 1.22 1.15 1.12
20 1.15 1.11 1.08
25 1.08 1.05 1.04
30 1.00 1.00 1.00
35 0.91 0.94 0.96
40 0.82 0.88 0.91
45 0.71 0.82 0.87
50 0.58 0.75 0.82
55 0.41 0.67 0.76
60 - 0.58 0.71
65 - 0.47 0.65
70 - 0.33 0.58
75 - - 0.50
80 - - 0.41
85 - - 0.29
"""

#: Conductors from, to, per cent of the table.
ADJUSTMENT = """
4 6 80
7 9 70
10 20 50
21 30 45
31 40 40
41 - 35
"""

STANDARD = (
    "10 15 20 25 30 35 40 45 50 60 70 80 90 100 110 125 150 175 200 225 "
    "250 300 350 400 450 500 600 700 800 1000 1200 1600 2000 2500 3000 4000 5000 6000"
)

#: Gauge to area [mm²] by ASTM B258, published rows; 1 kcmil is 0.5067 mm².
AREAS = {
    "18": 0.8231, "16": 1.3087, "14": 2.0809, "12": 3.3088, "10": 5.2612, "8": 8.3656,
    "6": 13.302, "4": 21.151, "3": 26.670, "2": 33.631, "1": 42.408, "1/0": 53.475,
    "2/0": 67.431, "3/0": 85.029, "4/0": 107.219,
}  # fmt: skip


def rows(text: str) -> list[list[str]]:
    return [line.split() for line in text.strip().splitlines()]


def figure(value: float, unit: str) -> Derived:
    return given("figure", "x", value, unit, DEFINITION)


def area(size: str) -> float:
    return AREAS.get(size) or float(size) * 0.5067075


def leg(size: str, limit: float, ambient: float = 30.0, bundle: int = 1) -> Installation:
    return a_leg(area(size) * 1e-6, limit, ambient, bundle=bundle)


def amps(value: Value) -> float | None:
    return value.value if isinstance(value, Derived) else None


def cells(text: str) -> list[tuple[str, int, float | None]]:
    return [
        (row[0], column, None if cell == "-" else float(cell))
        for row in rows(text)
        for column, cell in zip((60, 75, 90), row[1:], strict=True)
    ]


@pytest.mark.parametrize(("size", "column", "expected"), cells(RACEWAY))
def test_raceway(size: str, column: int, expected: float | None) -> None:
    assert amps(corrected(leg(size, column), Y2023, in_free_air=False)) == expected


@pytest.mark.parametrize(("size", "column", "expected"), cells(FREE_AIR))
def test_free_air(size: str, column: int, expected: float | None) -> None:
    assert amps(corrected(leg(size, column), Y2023, in_free_air=True)) == expected


@pytest.mark.parametrize(("warmest", "column", "factor"), cells(AMBIENT))
def test_ambient(warmest: str, column: int, factor: float | None) -> None:
    """4/0 AWG in a raceway: 195, 230 and 260 A."""
    full = {60: 195, 75: 230, 90: 260}[column]
    found = amps(corrected(leg("4/0", column, float(warmest)), Y2023, in_free_air=False))
    assert found == (None if factor is None else pytest.approx(factor * full))


@pytest.mark.parametrize(("lowest", "highest", "percent"), rows(ADJUSTMENT))
def test_adjustment(lowest: str, highest: str, percent: str) -> None:
    """Two conductors a circuit: 4 to 6 are two or three circuits, and so on. 260 A alone."""
    last = 200 if highest == "-" else int(highest)
    for conductors in range(int(lowest) + int(lowest) % 2, last + 1, 2):
        bundled = leg("4/0", 90, bundle=conductors // 2)
        found = amps(corrected(bundled, Y2023, in_free_air=False))
        assert found == pytest.approx(260 * int(percent) / 100)


def test_standard_ratings() -> None:
    assert tables.standard_ratings() == tuple(map(float, STANDARD.split()))


def test_devices_of_small_conductors() -> None:
    found = {row.size.name: (row.device, row.read) for row in tables.small_conductors()}
    read = {"14": (15.0, True), "12": (20.0, True), "10": (30.0, True)}
    assert found == {"18": (7.0, False), "16": (10.0, False), **read}


def test_devices_of_vehicles() -> None:
    found = {row.size.name: (row.device, row.read) for row in tables.vehicle_overcurrent()}
    amperes = {"18": 6.0, "16": 8.0, "14": 15.0, "12": 20.0, "10": 30.0}
    assert found == {size: (device, False) for size, device in amperes.items()}


def test_sizes_rise_and_kcmil_follow_awg() -> None:
    areas = [row.area for row in tables.raceway()]
    assert areas == sorted(areas)
    assert [row.words for row in tables.raceway()][14:16] == ["4/0 AWG", "250 kcmil"]


@pytest.mark.parametrize(
    ("square_millimetres", "expected"),
    [
        # 35 mm² lies between 2 AWG (33.6) and 1 AWG (42.4): 130 A. 2.5 mm²: 14 AWG, 25 A.
        (35.0, 130.0), (2.5, 25.0), (70.0, 195.0), (95.0, 225.0), (120.0, 260.0), (150.0, 290.0),
        # Written areas are rounded: 33.6 mm² is 2 AWG; a size 1 % short of it is 3 AWG, 115 A.
        (33.6, 130.0), (33.3, 115.0),
    ],
)  # fmt: skip
def test_a_size_between_two_rows_has_the_smaller_ones_figures(
    square_millimetres: float, expected: float
) -> None:
    metric = replace(leg("2", 90), area=figure(square_millimetres * 1e-6, "m²"))
    assert amps(corrected(metric, Y2023, in_free_air=False)) == expected


@pytest.mark.parametrize(
    ("limit", "expected"), [(60, 95), (74.9, 95), (75, 115), (89, 115), (90, 130), (105, 130)]
)
def test_a_rating_between_two_columns_has_the_cooler_ones_figures(
    limit: float, expected: float
) -> None:
    assert amps(corrected(leg("2", limit), Y2023, in_free_air=False)) == expected


def test_below_60_degrees_nothing_is_listed() -> None:
    found = corrected(leg("2", 59), Y2023, in_free_air=False)
    assert isinstance(found, Unknown)
    assert found.missing == ("Table 310.16: a column for insulation of 59 °C",)


def test_a_sheath_is_not_free_air() -> None:
    found = corrected(replace(leg("2", 90), sheathed=True), Y2023, in_free_air=True)
    assert isinstance(found, Unknown)


@pytest.mark.parametrize("field", ["area", "insulation_temperature", "ambient"])
def test_anything_unknown_leaves_it_unknown(field: str) -> None:
    blind = replace(leg("2", 90), **{field: Unknown(field, (f"cable-x: {field}",))})
    found = corrected(blind, Y2023, in_free_air=False)
    assert isinstance(found, Unknown)
    assert found.missing == (f"cable-x: {field}",)
