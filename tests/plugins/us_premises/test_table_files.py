"""The table files themselves: where each row is from, and rows that no rule uses yet.

Source: NFPA 70:2023 Table 310.15(B)(1)(2), as published.
"""

from __future__ import annotations

import csv
from pathlib import Path

import fusewright_us_premises

#: Warmest air [°C], then the factor for 60, 75, 90, 150, 200 and 250 °C; for tables of 40 °C air.
AMBIENT_40 = """
10 1.58 1.36 1.26 1.13 1.09 1.07
15 1.50 1.31 1.22 1.11 1.08 1.06
20 1.41 1.25 1.18 1.09 1.06 1.05
25 1.32 1.2 1.14 1.07 1.05 1.04
30 1.22 1.13 1.10 1.04 1.03 1.02
35 1.12 1.07 1.05 1.02 1.02 1.01
40 1.00 1.00 1.00 1.00 1.00 1.00
45 0.87 0.93 0.95 0.98 0.98 0.99
50 0.71 0.85 0.89 0.95 0.97 0.98
55 0.50 0.76 0.84 0.93 0.95 0.96
60 - 0.65 0.77 0.90 0.94 0.95
65 - 0.53 0.71 0.88 0.92 0.94
70 - 0.38 0.63 0.85 0.90 0.93
75 - - 0.55 0.83 0.88 0.91
80 - - 0.45 0.80 0.87 0.90
90 - - - 0.74 0.83 0.87
100 - - - 0.67 0.79 0.85
110 - - - 0.60 0.75 0.82
120 - - - 0.52 0.71 0.79
130 - - - 0.43 0.66 0.76
140 - - - 0.30 0.61 0.72
160 - - - - 0.50 0.65
180 - - - - 0.35 0.58
200 - - - - - 0.49
225 - - - - - 0.35
"""


def test_ambient_for_tables_made_for_40_degrees() -> None:
    file = Path(fusewright_us_premises.__path__[0]) / "tables" / "ambient_factors_310_15_B_1.csv"
    with file.open(encoding="utf-8", newline="") as stream:
        found = {
            (row["to"], row["column"]): float(row["factor"])
            for row in csv.DictReader(stream)
            if row["base"] == "40"
        }
    columns = ("60", "75", "90", "150", "200", "250")
    assert found == {
        (row[0], column): float(cell)
        for row in (line.split() for line in AMBIENT_40.strip().splitlines())
        for column, cell in zip(columns, row[1:], strict=True)
        if cell != "-"
    }


def test_every_row_has_its_source_and_says_whether_it_was_read() -> None:
    folder = Path(fusewright_us_premises.__path__[0]) / "tables"
    files = sorted(folder.glob("*.csv"))
    assert len(files) == 7
    for file in files:
        with file.open(encoding="utf-8", newline="") as stream:
            for row in csv.DictReader(stream):
                assert row["source"].startswith("NFPA 70:2023"), file.name
                assert row["read"] in ("yes", "no"), file.name
