"""Opening catalogues and getting parts: shadowing, adding, and at what cost."""

from __future__ import annotations

import os
import shutil
import sqlite3
import subprocess
import sys
import threading

import pytest

from catalogue.errors import CatalogueError
from catalogue.migrations import MIGRATIONS
from catalogue.parts import Battery, Fuse, InterruptRating
from catalogue.shop import add_parts
from catalogue.store import APPLICATION_ID, GENERIC, Store, open_catalogue

HOSTILE = [
    "fuse'; DROP TABLE part; --",
    'a"b',
    "fuse-%",
    "fuse-_",
    "=cmd|' /C calc'!A0",
    "../../etc/passwd",
    "部品-1",
    "x" * 100,
    "null",
    "1; 2",
]


def test_generic_parts_are_there_without_any_file():
    with open_catalogue(None) as catalogue:
        part = catalogue.get("fuse-t-300")
        assert (part.kind, part.origin, part.rated_current) == ("fuse", "generic", 300.0)
        assert catalogue.get("no-such-part") is None
        assert catalogue.describe() == "the generic parts"


def test_the_shop_shadows_the_generic_parts(shop):
    with open_catalogue(shop) as catalogue:
        part = catalogue.get("fuse-t-300")
        assert (part.origin, part.rated_voltage) == ("shop", 58.0)
        assert catalogue.get("fuse-t-400").origin == "generic"
        assert catalogue.get("fuse-own").rated_current == 7.0
        assert catalogue.shadowed("fuse-t-300")
        assert not catalogue.shadowed("fuse-own")
        assert shop in catalogue.describe()


def test_ids_name_each_part_once_and_under_the_kind_that_counts(shop):
    with open_catalogue(shop) as catalogue, open_catalogue(None) as generic:
        every = list(catalogue.ids())
        assert len(every) == len(set(every)) == len(list(generic.ids())) + 1
        assert every == sorted(every)
        assert "bar-30x5" in catalogue.ids("battery")
        assert "bar-30x5" not in catalogue.ids("busbar")
        assert "bar-30x5" in generic.ids("busbar")


def test_the_environment_names_a_shop_and_the_argument_goes_before(shop, tmp_path, monkeypatch):
    monkeypatch.setenv("FUSEWRIGHT_CATALOGUE", shop)
    with open_catalogue(None) as catalogue:
        assert catalogue.get("fuse-own") is not None
    other = str(tmp_path / "other.sqlite")
    add_parts(other, [Fuse(id="fuse-other", kind="fuse")])
    with open_catalogue(other) as catalogue:
        assert catalogue.get("fuse-own") is None
        assert catalogue.get("fuse-other") is not None


@pytest.mark.parametrize(
    ("wrong", "kind", "near"),
    [
        ("fuse-t300", "fuse", "fuse-t-300"),
        ("cable-4/0-awg-105", "cable", "cable-4/0-awg-105c"),
        ("FUSE-T-300", None, "fuse-t-300"),
        ("zzzzzzzz", "fuse", ""),
    ],
)
def test_near_misses(wrong, kind, near):
    with open_catalogue(None) as catalogue:
        assert catalogue.near(wrong, kind) == near


def test_near_misses_include_the_shop(shop):
    with open_catalogue(shop) as catalogue:
        assert catalogue.near("fuse-onw", "fuse") == "fuse-own"


@pytest.mark.parametrize("part_id", HOSTILE)
def test_hostile_ids_and_texts_are_only_texts(tmp_path, part_id):
    path = str(tmp_path / "shop.sqlite")
    add_parts(path, [Fuse(id=part_id, kind="fuse", description=part_id, notes=part_id)])
    with open_catalogue(path) as catalogue:
        part = catalogue.get(part_id)
        assert (part.id, part.description, part.notes) == (part_id,) * 3
        assert part_id in list(catalogue.ids("fuse"))


@pytest.mark.parametrize("part_id", ["", " x", "x ", "a\nb", "a\x00b", "\u202ex", "x" * 101])
def test_ids_that_nobody_could_write_are_refused(tmp_path, part_id):
    with pytest.raises(CatalogueError, match="id"):
        add_parts(str(tmp_path / "shop.sqlite"), [Fuse(id=part_id, kind="fuse")])


@pytest.mark.parametrize("asked", ["", "x\x00", "'", "\x00", "x" * 100_000])
def test_asking_for_nonsense_finds_nothing(asked):
    with open_catalogue(None) as catalogue:
        assert catalogue.get(asked) is None


def test_asking_for_what_no_database_can_hold_is_a_clear_error():
    with open_catalogue(None) as catalogue, pytest.raises(CatalogueError, match="cannot be read"):
        catalogue.get("\ud800")


def test_the_generic_file_opens_where_nothing_can_be_written(tmp_path):
    folder = tmp_path / "a b#c?d%41"
    folder.mkdir()
    copy = folder / "generic.sqlite"
    shutil.copy(GENERIC, copy)
    copy.chmod(0o444)
    folder.chmod(0o555)
    try:
        store = Store(str(copy), "generic")
        assert store.get("fuse-t-300").rated_current == 300.0
        store.close()
        assert sorted(os.listdir(folder)) == ["generic.sqlite"]
    finally:
        folder.chmod(0o755)


def test_many_read_at_the_same_time_while_one_writes(shop):
    failed = []

    def reader():
        try:
            for _ in range(10):
                with open_catalogue(shop) as catalogue:
                    if catalogue.get("fuse-own") is None or catalogue.get("fuse-gg-100") is None:
                        failed.append("a part was not found")
        except CatalogueError as error:
            failed.append(str(error))

    readers = [threading.Thread(target=reader) for _ in range(4)]
    for each in readers:
        each.start()
    for number in range(5):
        add_parts(shop, [Fuse(id=f"new-{number}", kind="fuse")])
    for each in readers:
        each.join()
    assert failed == []


def test_parts_are_added_all_or_none_and_never_silently_replaced(shop):
    with pytest.raises(CatalogueError, match="already in the catalogue: 'fuse-own'"):
        add_parts(shop, [Fuse(id="new", kind="fuse"), Fuse(id="fuse-own", kind="fuse")])
    with open_catalogue(shop) as catalogue:
        assert catalogue.get("new") is None
    rating = (InterruptRating(58.0, 1000.0),)
    add_parts(shop, [Fuse(id="fuse-own", kind="fuse", interrupt_ratings=rating)], replace=True)
    with open_catalogue(shop) as catalogue:
        assert catalogue.get("fuse-own").interrupt_ratings == rating
        assert catalogue.get("fuse-own").rated_current is None


def test_a_part_may_change_its_kind_and_leaves_nothing_behind(shop):
    rating = (InterruptRating(58.0, 1000.0),)
    add_parts(shop, [Fuse(id="x", kind="fuse", interrupt_ratings=rating, written={"a": "b"})])
    add_parts(shop, [Battery(id="x", kind="battery")], replace=True)
    connection = sqlite3.connect(shop)
    key = connection.execute("SELECT key FROM part WHERE id = 'x'").fetchone()
    for table, column in (("interrupt_rating", "part_key"), ("fuse", "key")):
        count = f"SELECT count(*) FROM {table} WHERE {column} = ?"
        assert connection.execute(count, key).fetchone() == (0,)
    assert connection.execute("SELECT written FROM part WHERE id = 'x'").fetchone() == (None,)
    connection.close()


def test_migrations_are_recorded_by_name(shop):
    connection = sqlite3.connect(shop)
    names = connection.execute("SELECT name FROM migration ORDER BY rowid").fetchall()
    assert names == [(step.__name__,) for step in MIGRATIONS]
    assert connection.execute("PRAGMA application_id").fetchone() == (APPLICATION_ID,)
    connection.close()


def test_reading_imports_nothing_heavy():
    code = (
        "import sys; from catalogue.store import open_catalogue; "
        "open_catalogue(None).get('fuse-t-300'); "
        "heavy = ('pint', 'sqlite_utils', 'rapidfuzz', 'csv', 'pathlib', 'yaml', 'msgspec'); "
        "print([name for name in heavy if name in sys.modules])"
    )
    found = subprocess.run(
        [sys.executable, "-S", "-c", code], capture_output=True, text=True, check=True,
        env={**os.environ, "PYTHONPATH": os.getcwd()},
    )  # fmt: skip
    assert found.stdout.strip() == "[]"
