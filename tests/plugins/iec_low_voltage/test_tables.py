"""The pack's tables, cell by cell, against the published rows, asked through what the rules use.

Sources: IEC 60364-5-52:2009 Annex B (two loaded conductors), Tables B.52.14 and B.52.17, read in
secondary copies; Table 43A of part 4-43 partly, conventional currents mostly from memory.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from fusewright_iec_low_voltage import tables
from fusewright_iec_low_voltage.ampacity import LOWEST, METHODS, ampacity
from fusewright_iec_low_voltage.bases import BASES, method_of

from coordination.rules import DEFINITION, Derived, Installation, Unknown, Value, given
from coordination.testing import a_leg

#: mm², then methods A1, A2, B1, B2, C, E, F; "-" where the standard has no row.
PVC_70 = """
0.5 - - - - - - -
0.75 - - - - - - -
1 - - - - - - -
1.5 14.5 14 17.5 16.5 19.5 22 -
2.5 19.5 18.5 24 23 27 30 -
4 26 25 32 30 36 40 -
6 34 32 41 38 46 51 -
10 46 43 57 52 63 70 -
16 61 57 76 69 85 94 -
25 80 75 101 90 112 119 131
35 99 92 125 111 138 148 162
50 119 110 151 133 168 180 196
70 151 139 192 168 213 232 251
95 182 167 232 201 258 282 304
120 210 192 269 232 299 328 352
150 240 219 309 265 344 379 406
185 273 248 353 300 392 434 463
240 321 291 415 351 461 514 546
300 367 334 477 401 530 593 629
"""

XLPE_90 = """
0.5 - - - - - - -
0.75 - - - - - - -
1 - - - - - - -
1.5 19 18.5 23 22 24 26 -
2.5 26 25 31 30 33 36 -
4 35 33 42 40 45 49 -
6 45 42 54 51 58 63 -
10 61 57 75 69 80 86 -
16 81 76 100 91 107 115 -
25 106 99 133 119 138 149 161
35 131 121 164 146 171 185 200
50 158 145 198 175 209 225 242
70 200 183 253 221 269 289 310
95 241 220 306 265 328 352 377
120 278 253 354 305 382 410 437
150 318 290 407 349 441 473 504
185 362 329 464 395 506 542 575
240 424 386 546 462 599 641 679
300 486 442 628 529 693 741 783
"""

#: Air [°C], then the factor for 70 and 90 °C.
AMBIENT = """
10 1.22 1.15
15 1.17 1.12
20 1.12 1.08
25 1.06 1.04
30 1.0 1.0
35 0.94 0.96
40 0.87 0.91
45 0.79 0.87
50 0.71 0.82
55 0.61 0.76
60 0.5 0.71
65 - 0.65
70 - 0.58
75 - 0.5
80 - 0.41
"""

#: Circuits bunched, factor.
BUNCHED = """
1 1
2 0.8
3 0.7
4 0.65
5 0.6
6 0.57
7 0.54
8 0.52
9 0.5
12 0.45
16 0.41
20 0.38
"""


def rows(text: str) -> list[list[str]]:
    return [line.split() for line in text.strip().splitlines()]


def figure(value: float, unit: str) -> Derived:
    return given("figure", "x", value, unit, DEFINITION)


def leg(size: float, limit: float, ambient: float = 30.0, bundle: int = 1) -> Installation:
    return a_leg(size * 1e-6, limit, ambient, bundle=bundle)


def amps(value: Value) -> float | None:
    return value.value if isinstance(value, Derived) else None


def cells() -> list[tuple[int, float, str, float | None]]:
    return [
        (limit, float(row[0]), method, None if cell == "-" else float(cell))
        for limit, text in ((70, PVC_70), (90, XLPE_90))
        for row in rows(text)
        for method, cell in zip(METHODS, row[1:], strict=True)
    ]


@pytest.mark.parametrize(("limit", "size", "method", "expected"), cells())
def test_ampacity(limit: int, size: float, method: str, expected: float | None) -> None:
    assert amps(ampacity(leg(size, limit), method)) == expected


@pytest.mark.parametrize(("air", "pvc", "xlpe"), rows(AMBIENT))
def test_ambient(air: str, pvc: str, xlpe: str) -> None:
    """16 mm², method C: 85 A for 70 °C, 107 A for 90 °C."""
    for limit, full, factor in ((70, 85, pvc), (90, 107, xlpe)):
        found = amps(ampacity(leg(16, limit, float(air)), "C"))
        assert found == (None if factor == "-" else pytest.approx(float(factor) * full))


@pytest.mark.parametrize(("circuits", "factor"), rows(BUNCHED))
def test_bunched(circuits: str, factor: str) -> None:
    found = amps(ampacity(leg(16, 90, bundle=int(circuits)), "C"))
    assert found == pytest.approx(float(factor) * 107)


def test_more_than_twenty_circuits_are_not_in_the_table() -> None:
    found = ampacity(leg(16, 90, bundle=21), "C")
    assert isinstance(found, Unknown)
    assert found.missing == ("Table B.52.17, row 1: a factor for 21 circuits",)


def test_the_method_that_stands_in_is_nowhere_larger_than_another() -> None:
    """By the published rows themselves, where a method has one."""
    for text in (PVC_70, XLPE_90):
        for row in rows(text):
            known = [float(cell) for cell in row[1:] if cell != "-"]
            if known:
                assert float(row[1 + METHODS.index(LOWEST)]) == min(known)


@pytest.mark.parametrize(
    ("square_millimetres", "expected"),
    [
        # 4/0 AWG is 107.2 mm²: 95 mm², 328 A. 2 AWG, 33.6 mm²: 25 mm², 138 A.
        (107.219, 328.0), (33.631, 138.0), (21.151, 107.0),
        # 15.95 mm² is 16 mm² rounded; 15.8 is not: 10 mm², 80 A.
        (15.95, 107.0), (15.8, 80.0),
    ],
)  # fmt: skip
def test_a_size_between_two_rows_has_the_smaller_ones_figures(
    square_millimetres: float, expected: float
) -> None:
    assert amps(ampacity(leg(square_millimetres, 90), "C")) == expected


@pytest.mark.parametrize(("limit", "expected"), [(70, 85), (89, 85), (90, 107), (105, 107)])
def test_a_rating_between_two_columns_has_the_cooler_ones_figures(
    limit: float, expected: float
) -> None:
    assert amps(ampacity(leg(16, limit), "C")) == expected


@pytest.mark.parametrize("field", ["area", "insulation_temperature", "ambient"])
def test_anything_unknown_leaves_it_unknown(field: str) -> None:
    blind = replace(leg(16, 90), **{field: Unknown(field, (f"cable-x: {field}",))})
    found = ampacity(blind, "C")
    assert isinstance(found, Unknown)
    assert found.missing == (f"cable-x: {field}",)


def test_a_sheath_is_not_free_air() -> None:
    assert isinstance(ampacity(replace(leg(25, 90), sheathed=True), "F"), Unknown)
    assert amps(ampacity(replace(leg(25, 90), sheathed=True), "E")) == 149


def test_one_basis_for_each_method() -> None:
    names = [basis.name for basis in BASES]
    assert names[0] == "iec60364-5-52-method-a1"
    assert [method_of(name) for name in names] == list(METHODS)
    assert method_of("iec60364-5-52-method-z") is None
    assert method_of("pair-in-free-air") is None


def test_factors_k() -> None:
    """Table 43A, published values [A·s^0.5/mm²]."""
    expected = {
        "PVC 70 C, up to 300 mm2": 115, "PVC 70 C, above 300 mm2": 103,
        "PVC 90 C, up to 300 mm2": 100, "PVC 90 C, above 300 mm2": 86,
        "XLPE / EPR 90 C": 143, "rubber 60 C": 141, "silicone rubber 180 C": 132,
    }  # fmt: skip
    found = {name: k / 1e6 for name, k in tables.k_factors().items()}
    assert expected.items() <= found.items()


def test_conventional_currents() -> None:
    found = {(row.family, row.above, row.up_to): row.factor for row in tables.conventional()}
    assert found[("gG", 0.0, 4.0)] == 2.1
    assert found[("gG", 4.0, 15.9)] == 1.9
    assert found[("gG", 15.9, 1250.0)] == 1.6
    assert found[("breaker IEC 60898", 0.0, 125.0)] == 1.45
    assert found[("breaker IEC 60947-2", 0.0, 6300.0)] == 1.3
    assert {row.family for row in tables.conventional() if row.factor == 1.35} == {
        "breaker UL 489", "strip", "blade", "class-t", "class-j", "class-rk1", "class-rk5",
    }  # fmt: skip
