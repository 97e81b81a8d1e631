"""Every state of a part stays: who wrote it, when, why; and what it said, to the byte."""

from __future__ import annotations

import sqlite3
from hashlib import sha256
from pathlib import Path

import pytest

from catalogue import migrations, writing
from catalogue.changes import change_by, same_name
from catalogue.errors import CatalogueError
from catalogue.parts import Battery, Fuse
from catalogue.records import Band, Curve, InterruptRating
from catalogue.revisions import canonical, digest_of, part_of
from catalogue.saving import put
from catalogue.shop import add_parts
from catalogue.store import Store
from catalogue.writing import open_for_change, transaction

FUSE = Fuse(
    id="f", kind="fuse", rated_current=300, written={"rated_current": "300 A"},
    interrupt_ratings=(InterruptRating(32.0, 5000.0),), document="Sheet 7", page="3",
    curve=Curve(((400.0, 10.0),), (), gates=True),
)  # fmt: skip


@pytest.fixture
def path(tmp_path):
    return str(tmp_path / "shop.sqlite")


def history(path):
    connection = sqlite3.connect(path)
    rows = connection.execute(
        "SELECT part_id, revision.number, changed_by, why, status, document, page, body, sha256 "
        "FROM revision JOIN change ON change.number = revision.change ORDER BY sequence"
    ).fetchall()
    connection.close()
    return rows


def test_a_part_is_kept_as_text_that_anybody_can_hash():
    # Written out by hand: keys in order, no blanks, SI floats.
    text = (
        '{"curve":{"fastest":[[400.0,10.0]],"gates":true},"document":"Sheet 7","id":"f",'
        '"interrupt_ratings":[{"current":5000.0,"voltage":32.0}],"kind":"fuse","page":"3",'
        '"rated_current":300.0,"written":{"rated_current":"300 A"}}'
    )
    assert canonical(FUSE) == text
    assert digest_of(FUSE) == sha256(text.encode()).hexdigest()
    assert canonical(part_of(text)) == text


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"id":"x","kind":"fuze"}', '{"kind":"fuse"}',
                                  '{"id":"x","kind":"fuse","wdth":1}'])  # fmt: skip
def test_what_is_no_part_is_a_clear_error(text):
    with pytest.raises(CatalogueError, match="cannot be read"):
        part_of(text)


def test_every_change_is_a_revision_and_nothing_is_overwritten(path):
    first = add_parts(path, [FUSE], by="A. Maker", why="new sheet")
    other = Fuse(id="f", kind="fuse", rated_current=250.0)
    second = add_parts(path, [other], replace=True, by="B. Maker")
    again = add_parts(path, [other], replace=True, by="C. Maker")
    assert (first, second, again) == ((1, 0, 0), (0, 1, 0), (0, 0, 1))
    assert history(path) == [
        ("f", 1, "A. Maker", "new sheet", None, "Sheet 7", "3", canonical(FUSE), digest_of(FUSE)),
        ("f", 2, "B. Maker", None, None, None, None, canonical(other), digest_of(other)),
    ]
    store = Store(path, "shop")
    assert store.revision_of("f") == (2, digest_of(store.get("f"))) == (2, digest_of(other))
    assert store.revision_of("g") is None
    store.close()


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE revision SET body = '{}'",
        "UPDATE revision SET sha256 = NULL, body = NULL, status = 'removed'",
        "DELETE FROM revision",
        "INSERT OR REPLACE INTO revision SELECT * FROM revision",
        "INSERT INTO revision (part_id, number, change, status) VALUES ('f', 1, 1, 'removed')",
        "INSERT INTO revision (part_id, number, change, status) VALUES ('f', 3, 1, 'removed')",
        "INSERT INTO revision (part_id, number, change, status) VALUES ('g', 2, 1, 'removed')",
        "INSERT INTO revision (part_id, number, change, status) VALUES ('f', 2, 9, 'removed')",
        "INSERT INTO revision (part_id, number, change, body) VALUES ('f', 2, 1, '{}')",
        "INSERT INTO revision (part_id, number, change) VALUES ('f', 2, 1)",
        "UPDATE change SET changed_by = 'somebody'",
        "DELETE FROM change",
        "INSERT OR REPLACE INTO change SELECT * FROM change",
        "INSERT INTO change (changed_at, changed_by) VALUES ('2026-03-02', 'x')",
        "INSERT INTO change (changed_at, changed_by) VALUES ('2026-13-02T10:00:00.000Z', 'x')",
        "INSERT INTO change (changed_at, changed_by) VALUES ('2026-03-02T10:00:00.000Z', ' ')",
    ],
)
def test_the_file_itself_refuses_to_alter_its_history(path, statement):
    add_parts(path, [FUSE])
    before = history(path)
    connection = sqlite3.connect(path)
    connection.execute("PRAGMA foreign_keys = ON")
    with pytest.raises(sqlite3.IntegrityError):
        connection.execute(statement)
    connection.close()
    assert history(path) == before


def test_who_changes_it_is_said_or_found_out(monkeypatch):
    monkeypatch.setenv("FUSEWRIGHT_BY", "Bench 2")
    assert change_by().by == "Bench 2"
    assert change_by(" A.  Maker ").by == "A. Maker"
    monkeypatch.delenv("FUSEWRIGHT_BY")
    monkeypatch.setenv("LOGNAME", "login-name")
    assert change_by().by == "login-name"
    for wrong in (" ", "x" * 201, "a\0b", "\ud800"):
        with pytest.raises(CatalogueError, match="--by"):
            change_by(wrong)
    with pytest.raises(CatalogueError, match="--why"):
        change_by("x", "  ")


def test_names_are_one_persons_whatever_their_case_and_blanks():
    assert same_name("A. Maker", " a.maker ")
    assert same_name("Ａ. Maker", "A. Maker")
    assert not same_name("A. Maker", "B. Maker")


def test_a_portion_with_one_id_twice_keeps_both_states(path):
    two = [Fuse(id="f", kind="fuse", rated_current=1.0), Battery(id="f", kind="battery")]
    with open_for_change(Path(path)) as db, transaction(db):
        assert put(db, iter(two), change_by("x")) == (1, 1, 0)
    assert [row[1] for row in history(path)] == [1, 2]


def test_what_fails_at_the_end_of_a_long_import_leaves_nothing(path):
    def many():
        for number in range(5000):
            yield Fuse(id=f"f-{number}", kind="fuse")
        raise CatalogueError("the last row is wrong")

    add_parts(path, [FUSE])


    with (
        pytest.raises(CatalogueError, match="last row"),
        open_for_change(Path(path)) as db,
        transaction(db),
    ):
        put(db, many(), change_by("x"))
    assert len(history(path)) == 1


OLD = (
    "INSERT INTO part (id, kind, document) VALUES ('b', 'battery', 'Sheet 1'), ('f', 'fuse', NULL)",
    "INSERT INTO battery (id, kind, resistance_min, resistance_max) "
    "VALUES ('b', 'battery', 0.001, 0.002)",
    "INSERT INTO fuse (id, kind, rated_current, curve_gates) VALUES ('f', 'fuse', 300, 0)",
    "INSERT INTO interrupt_rating (part_id, position, voltage, current) VALUES ('f', 0, 32, 5000)",
    "INSERT INTO curve_point (part_id, side, position, current, time) "
    "VALUES ('f', 'fastest', 0, 400, 10)",
    "INSERT INTO written VALUES ('f', 'rated_current', '300 A'), "
    "('f', 'interrupt_ratings.0.current', '\"5\" kA\\')",
)


@pytest.fixture
def old(tmp_path, monkeypatch):
    """A file of the second layout, with a battery and a fuse."""
    path = tmp_path / "old.sqlite"
    with monkeypatch.context() as then:
        then.setattr(migrations, "MIGRATIONS", migrations.MIGRATIONS[:2])
        then.setattr(migrations, "SCHEMA_VERSION", 2)
        then.setattr(writing, "_write_ahead", lambda _: None)
        with open_for_change(path) as db:
            for statement in OLD:
                db.execute(statement)
    return path


def dump(path):
    """All statements that would make the file anew."""
    connection = sqlite3.connect(path)
    version = connection.execute("PRAGMA user_version").fetchone()
    lines = [version, *connection.iterdump()]
    connection.close()
    return lines


def test_a_file_without_history_is_backed_up_and_then_begins_one(old):
    before, told = dump(old), []
    with open_for_change(old, tell=told.append):
        pass
    kept = old.with_name("old.sqlite.layout-2.backup")
    assert dump(kept) == before
    assert [str(kept) in each for each in told] == [True]
    store = Store(str(old), "shop")
    assert store.get("b") == Battery(
        id="b", kind="battery", origin="shop", document="Sheet 1", resistance=Band(0.001, 0.002)
    )
    fuse = store.get("f")
    assert fuse.written == {
        "rated_current": "300 A", "interrupt_ratings.0.current": '"5" kA\\'
    }  # fmt: skip
    assert fuse.interrupt_ratings == (InterruptRating(32.0, 5000.0),)
    assert fuse.curve == Curve(((400.0, 10.0),), ())
    assert store.revision_of("f") == (1, digest_of(fuse))
    store.close()
    assert [(row[0], row[1], row[2], row[5]) for row in history(old)] == [
        ("b", 1, "unknown", "Sheet 1"), ("f", 1, "unknown", None),
    ]  # fmt: skip


def test_no_backup_goes_over_another_and_none_is_made_without_need(old, tmp_path):
    first = tmp_path / "old.sqlite.layout-2.backup"
    first.write_text("somebody's own")
    for _ in range(2):
        with open_for_change(old):
            pass
    assert first.read_text() == "somebody's own"
    assert sorted(each.name for each in tmp_path.glob("*.backup*")) == [
        "old.sqlite.layout-2-2.backup", "old.sqlite.layout-2.backup",
    ]  # fmt: skip
    with open_for_change(tmp_path / "new.sqlite"):
        pass
    assert not list(tmp_path.glob("new.sqlite.*"))


def test_a_migration_that_fails_leaves_the_file_as_it_was(old, monkeypatch):
    def breaks(db):
        db.execute("CREATE TABLE half (x)")
        raise sqlite3.OperationalError("database or disk is full")

    steps = (*migrations.MIGRATIONS[:2], breaks)
    monkeypatch.setattr(migrations, "MIGRATIONS", steps)
    with pytest.raises(CatalogueError, match="no room"), open_for_change(old):
        pass
    connection = sqlite3.connect(old)
    assert connection.execute("PRAGMA user_version").fetchone() == (2,)
    assert connection.execute("SELECT count(*) FROM part").fetchone() == (2,)
    names = [row[0] for row in connection.execute("SELECT name FROM sqlite_master")]
    assert "half" not in names
    connection.close()
