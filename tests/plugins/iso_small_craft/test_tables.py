"""Every cell of the pack's tables against the published rows, kept beside this file."""

from __future__ import annotations

import csv
from pathlib import Path

import fusewright_iso_small_craft
import pytest
from fusewright_iso_small_craft import tables

PACK = Path(fusewright_iso_small_craft.__path__[0]) / "tables"
PUBLISHED = Path(__file__).parent / "published"

# Table A.1 by column as remembered, 0.75 mm² first; typed here a second time.
SIZES = (0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150)
COLUMNS = {
    60: "6 8 12 17 22 29 40 54 71 87 105 135 165 190 220",
    70: "10 14 18 25 35 45 65 90 120 160 210 265 310 360 380",
    85: "12 18 21 30 40 50 70 100 140 185 230 285 330 400 430",
    105: "16 20 25 35 45 60 90 130 170 210 270 330 390 450 475",
    125: "20 25 30 40 50 70 100 150 185 225 300 360 410 480 520",
    200: "25 35 40 45 55 75 120 170 200 240 325 375 430 520 560",
}


def rows(folder: Path, name: str) -> list[dict[str, str]]:
    with (folder / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_ampacity_cell_by_cell():
    published = rows(PUBLISHED, "iso_ampacity_single_conductor")
    kept = rows(PACK, "ampacity")
    assert len(published) == len(kept) == 15
    for row, own in zip(published, kept, strict=True):
        assert list(row.values())[:7] == list(own.values())[:7]


def test_ampacity_as_it_is_used():
    used = {size.area: dict(size.amps) for size in tables.ampacity()}
    assert len(used) == len(SIZES)
    for rating, column in COLUMNS.items():
        for size, amps in zip(SIZES, column.split(), strict=True):
            assert used[size * 1e-6][rating] == float(amps)


def test_a_larger_size_and_a_hotter_insulation_never_carry_less():
    for smaller, larger in zip(tables.ampacity(), tables.ampacity()[1:], strict=False):
        assert all(a < b for (_, a), (_, b) in zip(smaller.amps, larger.amps, strict=True))
    for size in tables.ampacity():
        amps = [each for _, each in size.amps]
        assert amps == sorted(amps)


def test_engine_space_cell_by_cell():
    published = rows(PUBLISHED, "iso_engine_space_factor")
    for row, own in zip(published, rows(PACK, "engine_space"), strict=True):
        rating, factor = row["insulation_rating_C"], row["factor_dimensionless"]
        assert own["insulation_C"] == rating.partition("-")[0]
        assert own["factor"] == ("" if factor.startswith("not permitted") else factor)
    assert tables.engine_space() == {
        60.0: None, 70.0: 0.75, 85.0: 0.82, 105.0: 0.86, 125.0: 0.89, 200.0: 1.0,
    }  # fmt: skip


@pytest.mark.parametrize(("rated", "factor"), [
    (70, 0.707), (85, 0.798), (105, 0.856), (125, 0.889),
])  # fmt: skip
def test_engine_factors_fit_air_of_50_degrees_not_of_60(rated, factor):
    """Heat balance by hand, sqrt((T − 50) / (T − 30)); 105 °C in air of 60 °C would have 0.775."""
    assert ((rated - 50) / (rated - 30)) ** 0.5 == pytest.approx(factor, abs=5e-4)
    assert tables.engine_space()[float(rated)] == pytest.approx(factor, abs=0.045)
    assert tables.engine_space()[float(rated)] > ((rated - 60) / (rated - 30)) ** 0.5 + 0.05


def test_bundling_cell_by_cell():
    published = rows(PUBLISHED, "iso_bundling_factor")
    for row, own in zip(published, rows(PACK, "bundling"), strict=True):
        assert list(row.values())[:3] == list(own.values())[:3]
    assert tables.bundling() == ((3.0, 1.0), (6.0, 0.7), (24.0, 0.6), (float("inf"), 0.5))


def test_voltage_ranges():
    found = [(row.nominal, row.lowest, row.highest) for row in tables.voltage_ranges()]
    assert found == [(12.0, 10.5, 15.5), (24.0, 21.0, 31.0)]


@pytest.mark.parametrize("name", ["ampacity", "bundling", "engine_space", "voltage_range"])
def test_every_row_says_that_it_is_from_memory(name):
    for row in rows(PACK, name):
        assert row["read"] == "no"
        assert row["source"].startswith("ISO ")
        assert "from memory" in row["source"]
