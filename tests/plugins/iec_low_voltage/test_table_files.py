"""The table files themselves: where each row is from, and rows that no rule uses.

Sources: IEC 60364-5-52:2009 Annex B (three loaded conductors, partly from memory), Table B.52.17.
"""

from __future__ import annotations

import csv
from pathlib import Path

import fusewright_iec_low_voltage

#: Three loaded conductors, which no rule uses: mm², then 70 °C C and E, 90 °C C and E.
THREE_LOADED = """
0.5 - 9 - 12
0.75 - 12 - 15
1 - 14 - 18
1.5 17.5 18.5 22 23
2.5 24 25 30 32
4 32 34 40 42
6 41 43 52 54
10 57 60 71 75
16 76 80 96 100
25 96 101 119 127
35 119 126 147 158
50 144 153 179 192
70 184 196 229 246
95 223 238 278 298
120 259 276 322 346
150 299 319 371 399
185 341 364 424 456
240 403 430 500 538
300 464 497 576 621
"""

#: Other arrangements, which no rule uses: circuits:factor. EIG: the rounded figures of 2001.
LAYERS = """
2 1:1 2:0.85 3:0.79 4:0.75 5:0.73 6:0.72 7:0.72 8:0.71 9:0.7 12:0.7 16:0.7 20:0.7
4 1:1 2:0.88 3:0.82 4:0.77 5:0.75 6:0.73 7:0.73 8:0.72 9:0.72 12:0.72 16:0.72 20:0.72
5 1:1 2:0.87 3:0.82 4:0.8 5:0.8 6:0.79 7:0.79 8:0.78 9:0.78 12:0.78 16:0.78 20:0.78
EIG 1:1 2:0.8 3:0.7 4:0.7 6:0.55 9:0.5 12:0.45 16:0.4 20:0.4
"""


def rows(text: str) -> list[list[str]]:
    return [line.split() for line in text.strip().splitlines()]


def lines(name: str) -> list[dict[str, str]]:
    folder = Path(fusewright_iec_low_voltage.__path__[0]) / "tables"
    with (folder / f"{name}.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def test_three_loaded_conductors() -> None:
    found = {
        (row["area"], row["limit"], row["method"]): float(row["ampacity"])
        for row in lines("ampacity_annex_b")
        if row["loaded"] == "3"
    }
    kinds = (("70", "C"), ("70", "E"), ("90", "C"), ("90", "E"))
    assert found == {
        (row[0], *kind): float(cell)
        for row in rows(THREE_LOADED)
        for kind, cell in zip(kinds, row[1:], strict=True)
        if cell != "-"
    }


def test_layers() -> None:
    found: dict[str, list[str]] = {}
    for row in lines("grouping_b_52_17"):
        arrangement = row["arrangement"].split(" ")[0]
        found.setdefault(arrangement, []).append(f"{row['circuits']}:{row['factor']}")
    assert {row[0]: row[1:] for row in rows(LAYERS)} == {
        arrangement: cells for arrangement, cells in found.items() if arrangement != "1"
    }


def test_every_row_has_its_source_and_says_whether_it_was_read() -> None:
    folder = Path(fusewright_iec_low_voltage.__path__[0]) / "tables"
    files = sorted(folder.glob("*.csv"))
    assert len(files) == 5
    for file in files:
        with file.open(encoding="utf-8", newline="") as stream:
            for row in csv.DictReader(stream):
                assert row["source"], file.name
                assert row["read"] in ("yes", "no"), file.name
