"""Every published table says of every row where it comes from and whether it was read."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

TABLES = sorted((Path(__file__).parents[3] / "fixtures" / "published").glob("*.csv"))


@pytest.mark.parametrize("path", TABLES, ids=lambda path: path.stem)
def test_rows_name_their_source(path):
    with path.open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert rows
    for row in rows:
        assert row["source"], row
        assert row["read"] in {"yes", "no", "hand"}, row
