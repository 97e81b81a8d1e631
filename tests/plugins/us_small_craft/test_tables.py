"""Every cell of the pack's tables against the published rows, typed here a second time."""

from __future__ import annotations

import csv
from pathlib import Path

import fusewright_us_small_craft
import pytest

PACK = Path(fusewright_us_small_craft.__path__[0])
PUBLISHED = Path(__file__).parents[3] / "fixtures" / "published"
RATINGS = ("60", "75", "80", "90", "105", "125", "200")

# 33 CFR 183.425 Table 5, by column as printed there, 18 AWG first.
SIZES = ["18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0"]
COLUMNS = {
    "60": "10 15 20 25 40 55 80 105 120 140 165 195 225 260 300",
    "75": "10 15 20 25 40 65 95 125 145 170 195 230 265 310 360",
    "80": "15 20 25 35 50 70 100 130 150 175 210 245 285 330 385",
    "90": "20 25 30 40 55 70 100 135 155 180 210 245 285 330 385",
    "105": "20 25 35 45 60 80 120 160 180 210 245 285 330 385 445",
    "125": "25 30 40 50 70 90 125 170 195 225 265 305 355 410 475",
    "200": "25 35 45 55 70 100 135 180 210 240 280 325 370 430 510",
}
# Nominal areas [mm²] of the sizes, to four figures: ASTM B258, as a published table prints them.
AREAS = (
    0.8230, 1.309, 2.081, 3.309, 5.261, 8.366, 13.30, 21.15, 26.67, 33.63, 42.41, 53.48, 67.43,
    85.03, 107.2,
)  # fmt: skip
# 105 °C in an engine space: two reprints of the table, whole amperes and one decimal.
ENGINE_105 = {
    "18": 17, "16": 21.3, "14": 29.8, "12": 38.3, "10": 51, "8": 68, "6": 102, "4": 136,
    "3": 153, "2": 178.5, "1": 208.3, "1/0": 242.3, "2/0": 280.5, "3/0": 327.3, "4/0": 378.3,
}  # fmt: skip


def rows(name: str) -> list[dict[str, str]]:
    with (PACK / "tables" / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("rating", RATINGS)
def test_table_5_has_the_published_current_in_every_cell(rating):
    found = {row["awg"]: row[f"amps_{rating}C"] for row in rows("table5")}
    assert found == dict(zip(SIZES, COLUMNS[rating].split(), strict=True))


def test_table_5_agrees_with_the_copy_in_the_fixtures():
    with (PUBLISHED / "marine_ampacity.csv").open(encoding="utf-8", newline="") as file:
        copied = {(r["size"], r["insulation_c"]): float(r["ampacity_a"])
                  for r in csv.DictReader(file) if r["source"] == "33 CFR 183.425 Table 5"}
    assert len(copied) == 105
    for row in rows("table5"):
        for rating in RATINGS:
            assert float(row[f"amps_{rating}C"]) == copied[row["awg"], rating]


def test_table_5_knows_the_area_of_every_size():
    for row, area in zip(rows("table5"), AREAS, strict=True):
        assert float(row["area_mm2"]) == pytest.approx(area, rel=5e-4)


def test_engine_space_factors_are_the_published_ones_with_what_was_read():
    listed = rows("engine_space")
    found = {row["insulation_C"]: (float(row["factor"]), row["read"]) for row in listed}
    assert found == {
        "60": (0.58, "no"), "75": (0.75, "no"), "80": (0.78, "no"), "90": (0.82, "no"),
        "105": (0.85, "yes"), "125": (0.89, "no"), "200": (1.0, "no"),
    }  # fmt: skip


def test_bundling_factors_are_the_published_ones():
    listed = rows("bundling")
    found = [(r["conductors_min"], r["conductors_max"], float(r["factor"])) for r in listed]
    assert found == [("3", "3", 0.7), ("4", "6", 0.6), ("7", "24", 0.5), ("25", "", 0.4)]


def test_interrupting_capacities_are_the_published_ones():
    found = [
        tuple(row[k] for k in ("volts_min", "volts_max", "cca_max_A", "main_A", "branch_A", "read"))
        for row in rows("interrupting")
    ]
    assert found == [
        ("12", "24", "650", "1500", "750", "yes"),
        ("12", "24", "1100", "3000", "1500", "yes"),
        ("12", "24", "", "5000", "2500", "yes"),
        ("32", "32", "1250", "3000", "1500", "no"),
        ("32", "32", "", "5000", "2500", "no"),
    ]


def test_standard_ratings_are_marked_as_not_read():
    assert {row["read"] for row in rows("standard_ratings")} == {"no"}
    # NFPA 70 240.6(A), from memory: these stand on either side of 320 A and of 210 A.
    ratings = [int(row["rating_A"]) for row in rows("standard_ratings")]
    assert ratings == sorted(set(ratings))
    assert {200, 225, 300, 350} <= set(ratings)
    assert not {320, 210, 240, 275} & set(ratings)


@pytest.mark.parametrize(("awg", "reprinted"), ENGINE_105.items())
def test_a_105_degree_row_times_0_85_agrees_with_two_reprints(awg, reprinted):
    row = next(row for row in rows("table5") if row["awg"] == awg)
    factor = next(float(r["factor"]) for r in rows("engine_space") if r["insulation_C"] == "105")
    assert factor * float(row["amps_105C"]) == pytest.approx(reprinted, abs=0.06)
