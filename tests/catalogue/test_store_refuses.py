"""Files that are no catalogue, or not one that may be used, are refused with the reason."""

from __future__ import annotations

import os
import sqlite3

import pytest

from catalogue.errors import CatalogueError
from catalogue.parts import Fuse
from catalogue.shop import add_parts
from catalogue.store import GENERIC, Store, open_catalogue


def refused(path) -> str:
    with pytest.raises(CatalogueError) as caught:
        open_catalogue(str(path))
    return str(caught.value)


def test_a_missing_file(tmp_path):
    assert "no catalogue file" in refused(tmp_path / "none.sqlite")
    assert not (tmp_path / "none.sqlite").exists()
    assert "no catalogue file" in refused(tmp_path)
    assert "no catalogue file" in refused("a\x00b")


def test_a_file_that_is_no_database(tmp_path):
    path = tmp_path / "x.sqlite"
    path.write_bytes(b"parts: rubbish " * 500)
    assert "not a database" in refused(path)


def test_an_empty_file_and_a_strange_database(tmp_path):
    empty = tmp_path / "empty.sqlite"
    empty.touch()
    assert "no parts catalogue" in refused(empty)
    strange = tmp_path / "strange.sqlite"
    with sqlite3.connect(strange) as connection:
        connection.execute("CREATE TABLE songs (title TEXT)")
    connection.close()
    assert "no parts catalogue" in refused(strange)
    with pytest.raises(CatalogueError, match="no parts catalogue"):
        add_parts(str(strange), [])


@pytest.mark.parametrize(("version", "says"), [(99, "newer Fusewright"), (0, "older Fusewright")])
def test_another_version(shop, version, says):
    connection = sqlite3.connect(shop)
    connection.execute(f"PRAGMA user_version = {version}")
    connection.close()
    assert says in refused(shop)


def test_writing_to_a_newer_version_is_refused(shop):
    connection = sqlite3.connect(shop)
    connection.execute("PRAGMA user_version = 99")
    connection.close()
    with pytest.raises(CatalogueError, match="newer Fusewright"):
        add_parts(shop, [Fuse(id="x", kind="fuse")])


def test_a_broken_file(shop):
    with open(shop, "r+b") as file:
        file.seek(4096)
        file.write(b"\xff" * (os.path.getsize(shop) - 4096))
    with pytest.raises(CatalogueError, match="cannot be read"), open_catalogue(shop) as catalogue:
        list(catalogue.ids())


def test_a_locked_file(shop, monkeypatch):
    monkeypatch.setattr("catalogue.writing.PATIENCE", 0.05)
    connection = sqlite3.connect(shop, isolation_level=None)
    connection.execute("BEGIN EXCLUSIVE")
    try:
        # Who reads is not kept waiting: it reads what there was before.
        with open_catalogue(shop) as catalogue:
            assert catalogue.get("fuse-own").rated_current == 7.0
        with pytest.raises(CatalogueError, match="being changed by another program"):
            add_parts(shop, [Fuse(id="x", kind="fuse")])
    finally:
        connection.close()


def test_the_generic_file_is_never_written():
    with pytest.raises(CatalogueError, match="read-only"):
        add_parts(GENERIC, [Fuse(id="x", kind="fuse")])
    with pytest.raises(CatalogueError, match="read-only"):
        add_parts(None, [Fuse(id="x", kind="fuse")])


def test_the_file_is_opened_for_reading_only(shop):
    store = Store(shop, "shop")
    with pytest.raises(CatalogueError, match="readonly"):
        store._rows("DELETE FROM part")
    store.close()
    with pytest.raises(CatalogueError, match="closed"):
        store.get("fuse-own")
