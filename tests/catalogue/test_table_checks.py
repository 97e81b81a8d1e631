"""Every CHECK of every table refuses what it should."""

from __future__ import annotations

import sqlite3

import pytest

from catalogue.layout import LISTS, SHARED, columns_of, described, list_columns
from catalogue.parts import (
    KINDS,
)
from catalogue.writing import open_for_change

#: The key of a part of each kind.
KEYS = {kind: number for number, kind in enumerate(KINDS, start=1)}
NOBODY = 99


@pytest.fixture(scope="module")
def path(tmp_path_factory):
    path = tmp_path_factory.mktemp("catalogue") / "empty.sqlite"
    with open_for_change(path):
        pass
    return path


@pytest.fixture
def db(path):
    connection = sqlite3.connect(path, isolation_level=None)
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("BEGIN")
    for kind, key in KEYS.items():
        connection.execute("INSERT INTO part (key, id, kind) VALUES (?, ?, ?)", (key, kind, kind))
    yield connection
    connection.close()


def insert(db, table, **row):
    marks = ", ".join("?" * len(row))
    db.execute(f"INSERT INTO {table} ({', '.join(row)}) VALUES ({marks})", tuple(row.values()))


def refuses(db, table, **row):
    with pytest.raises(sqlite3.IntegrityError):
        insert(db, table, **row)


def own_columns():
    """(kind, column, dimension or shape) of every column in the tables of the kinds."""
    for kind in KINDS:
        for field in described(kind):
            if field.name not in SHARED and field.name not in LISTS:
                for column in columns_of(field):
                    meta = field.metadata
                    yield kind, column, meta.get("dimension") or meta["shape"]


#: Column -> the column that must be stated with it.
PARTNERS = {
    f"{name}_{one}": f"{name}_{other}"
    for name, pair in {
        **dict.fromkeys(("resistance", "resistance_20c", "emf"), ("min", "max")),
        **dict.fromkeys(("short_time", "withstand", "discharge_peak"), ("current", "time")),
        "breaking": ("current", "voltage"),
    }.items()
    for one, other in (pair, pair[::-1])
}


def good(column, sort):
    if sort == "flag":
        return 1
    if sort == "whole":
        return 2
    if sort in ("text", "choice", "date"):
        return {
            "material": "copper", "stranding": "class 5", "chemistry": "lfp", "awg": "4/0",
        }.get(column, "some text")  # fmt: skip
    return 25.0


def bad(column, sort, kind):
    if sort == "flag":
        return (2, -1, 0.5, "yes")
    if sort == "whole":
        return (0, -1, 10_001, 1.5, "x")
    if sort == "choice":
        return ("", "Copper", "unobtainium", 1.5)
    if sort == "text":
        return ("", "  ", "\t\n")
    if sort == "temperature":
        return (-273.15, -300.0, 2001.0, float("inf"), "x")
    zero = () if column == "resistance_min" and kind != "battery" else (0.0,)
    return (-1.0, *zero, 1.1e18, float("inf"), "x", b"x")


@pytest.mark.parametrize(("kind", "column", "sort"), list(own_columns()))
def test_every_column_of_a_kind_refuses_what_it_cannot_be(db, kind, column, sort):
    partner = PARTNERS.get(column)
    both = {partner: 25.0} if partner else {}
    for value in bad(column, sort, kind):
        refuses(db, kind, key=KEYS[kind], **{column: value, **both})
    if partner:
        refuses(db, kind, key=KEYS[kind], **{column: 25.0})
    insert(db, kind, key=KEYS[kind], **{column: good(column, sort), **both})


@pytest.mark.parametrize(
    ("kind", "name"),
    [
        ("fuse", "resistance"),
        ("breaker", "resistance"),
        ("disconnect", "resistance"),
        ("battery", "resistance"),
        ("battery", "emf"),
        ("cable", "resistance_20c"),
    ],
)
def test_a_minimum_above_its_maximum(db, kind, name):
    refuses(db, kind, key=KEYS[kind], **{f"{name}_min": 2.0, f"{name}_max": 1.0})
    insert(db, kind, key=KEYS[kind], **{f"{name}_min": 2.0, f"{name}_max": 2.0})


@pytest.mark.parametrize(
    "row",
    [
        {"id": "", "kind": "fuse"},
        {"id": " x", "kind": "fuse"},
        {"id": "x" * 101, "kind": "fuse"},
        {"id": "x", "kind": None},
        {"id": "x", "kind": "fuse", "status": "finished"},
        {"id": "x", "kind": "fuse", "reviewed": "2026-02-30"},
        {"id": "x", "kind": "fuse", "reviewed": "02.03.2026"},
        {"id": "x", "kind": "fuse", "reviewed": "2026-3-2"},
        {"id": "x", "kind": "fuse", "description": " "},
        {"id": "x", "kind": "fuse", "document": ""},
        {"id": "x", "kind": "fuse", "page": "\n"},
        {"id": "x", "kind": "fuse", "notes": ""},
        {"id": "fuse", "kind": "fuse"},
        {"id": "x", "kind": "fuse", "reviewed_by": " "},
        {"id": "x", "kind": "fuse", "written": "300 A"},
        {"id": "x", "kind": "fuse", "successor": "y"},
        {"id": "x", "kind": "fuse", "successor": "y", "status": "draft"},
        {"id": "x", "kind": "fuse", "successor": "x", "status": "retired"},
        {"id": "x", "kind": "fuse", "successor": " y", "status": "retired"},
    ],
)
def test_what_all_parts_share(db, row):
    refuses(db, "part", **row)


def test_a_part_that_all_of_it_fits(db):
    insert(
        db, "part", id="x", kind="fuse", status="draft", reviewed="2026-03-02", notes="n"
    )  # fmt: skip


def test_a_row_of_a_kind_belongs_to_a_part_of_that_kind(db):
    refuses(db, "fuse", key=NOBODY)
    refuses(db, "fuse", key=KEYS["cable"])
    insert(db, "cable", key=KEYS["cable"])
    refuses(db, "cable", key=KEYS["cable"])


LIST_ROWS = {
    "interrupt_rating": {"voltage": 32.0, "current": 1000.0},
    "intermittent": {"current": 400.0, "time": 300.0},
    "derating": {"temperature": 40.0, "factor": 0.9},
    "curve_point": {"side": "fastest", "current": 400.0, "time": 10.0},
}


@pytest.mark.parametrize("table", list(LIST_ROWS))
def test_every_list_refuses_what_it_cannot_hold(db, table):
    row = {"part_key": KEYS["fuse"], "position": 0, **LIST_ROWS[table]}
    refuses(db, table, **{**row, "position": -1})
    for column, value in LIST_ROWS[table].items():
        values = ("sideways",) if value == "fastest" else (-300.0, float("inf"), "x")
        for wrong in (None, *values, *(() if column in ("temperature", "side") else (0.0,))):
            refuses(db, table, **{**row, column: wrong})
    refuses(db, table, **{**row, "part_key": NOBODY})
    insert(db, table, **row)
    refuses(db, table, **row)


@pytest.mark.parametrize(
    ("table", "row"),
    [
        ("interrupt_rating", {"voltage": 32.0, "current": 500.0}),
        ("derating", {"temperature": 40.0, "factor": 0.8}),
        ("derating", {"temperature": 50.0, "factor": 0.95}),
        ("derating", {"temperature": 30.0, "factor": 0.95}),
        ("curve_point", {"side": "fastest", "current": 400.0, "time": 5.0}),
        ("curve_point", {"side": "fastest", "current": 300.0, "time": 20.0}),
        ("curve_point", {"side": "fastest", "current": 500.0, "time": 11.0}),
    ],
)
def test_rows_that_contradict_one_before(db, table, row):
    insert(db, table, part_key=KEYS["fuse"], position=0, **LIST_ROWS[table])
    refuses(db, table, part_key=KEYS["fuse"], position=1, **row)


def test_rows_go_with_their_part(db):
    for table, row in LIST_ROWS.items():
        insert(db, table, part_key=KEYS["fuse"], position=0, **row)
    db.execute("DELETE FROM part WHERE id = 'fuse'")
    for table in LIST_ROWS:
        assert db.execute(f"SELECT count(*) FROM {table}").fetchone() == (0,)


def test_the_tables_have_exactly_the_fields_of_the_classes(db):
    def columns(table):
        return {row[1] for row in db.execute(f"PRAGMA table_info({table})")}

    for kind in KINDS:
        own = [field for field in described(kind) if field.name not in SHARED]
        expected = {column for field in own for column in columns_of(field)} | {"key"}
        assert columns(kind) == expected
        for field in own:
            if field.name in LISTS:
                table = LISTS[field.name]
                assert columns(table) == {"part_key", "position", *list_columns(field)}
    assert columns("part") == {"key", "id", "kind", "written", *SHARED}


def test_every_table_is_strict(db):
    # A file's own record of it; sqlite_schema keeps the text of each statement.
    tables = db.execute(
        "SELECT name, sql FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' "
        # The index of words keeps tables of its own.
        "AND name NOT LIKE 'part_words%'"
    ).fetchall()
    assert len(tables) == 15
    assert [name for name, sql in tables if "STRICT" not in sql.rsplit(")", 1)[1]] == []


def test_choices_are_those_of_the_classes(db):
    for kind in KINDS:
        for field in described(kind):
            if field.metadata["shape"] == "choice" and field.name not in SHARED:
                for choice in field.metadata["choices"]:
                    db.execute(f"DELETE FROM {kind}")
                    insert(db, kind, key=KEYS[kind], **{field.name: choice})
