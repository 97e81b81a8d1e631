"""Curves in catalogue files of every layout."""

from __future__ import annotations

import sqlite3

import pytest

from catalogue import migrations
from catalogue.errors import CatalogueError
from catalogue.parts import Curve, Fuse
from catalogue.shop import add_parts
from catalogue.store import Store
from catalogue.writing import open_for_change


def test_a_file_of_the_first_layout_keeps_its_curves(tmp_path, monkeypatch):
    path = tmp_path / "old.sqlite"
    with monkeypatch.context() as old:
        old.setattr(migrations, "MIGRATIONS", (migrations.first_tables,))
        old.setattr(migrations, "SCHEMA_VERSION", 1)
        with open_for_change(path) as db:
            db.execute("INSERT INTO part (id, kind) VALUES ('f', 'fuse')")
            db.execute("INSERT INTO fuse (id, kind, rated_current) VALUES ('f', 'fuse', 100)")
            for row in (("fastest", 0, 200, 9), ("fastest", 1, 900, 0.1), ("slowest", 0, 300, 9)):
                db.execute(
                    "INSERT INTO curve_point (part_id, side, position, current, time) "
                    "VALUES ('f', ?, ?, ?, ?)",
                    row,
                )
    with pytest.raises(CatalogueError, match="older Fusewright"):
        Store(str(path), "shop")
    add_parts(str(path), [Fuse(id="g", kind="fuse")])
    store = Store(str(path), "shop")
    curve = store.get("f").curve
    assert curve == Curve(((200.0, 9.0), (900.0, 0.1)), ((300.0, 9.0),))
    assert not curve.gates
    store.close()
    with open_for_change(path) as db, pytest.raises(sqlite3.IntegrityError, match="in order"):
        db.execute("INSERT INTO curve_point SELECT key, 2, 'fastest', 950, 0.2 FROM part")
