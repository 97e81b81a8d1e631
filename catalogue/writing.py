"""Makes and changes catalogue files; sqlite-utils is imported only here, when somebody writes."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from catalogue.errors import CatalogueError
from catalogue.layout import LISTS, SHARED, columns_with_values, described, rows_of
from catalogue.parts import Part
from catalogue.store import APPLICATION_ID, GENERIC, PATIENCE

if TYPE_CHECKING:
    from sqlite_utils import Database


@contextmanager
def open_for_change(path: Path, *, generic: bool = False) -> Iterator[Database]:
    """The catalogue file at `path`, made if there is none, in the newest layout.

    Raises CatalogueError: the shipped file, no catalogue, a newer one, locked, no place to write.
    """
    from sqlite_utils import Database

    from catalogue.migrations import migrate

    if not generic and path.resolve() == Path(GENERIC).resolve():
        raise CatalogueError("the generic parts are read-only; name a catalogue file of your own")
    connection = None
    try:
        connection = sqlite3.connect(path, timeout=PATIENCE, isolation_level=None)
        db = Database(connection)
        _refuse_strangers(db, path)
        connection.execute("PRAGMA foreign_keys = ON")
        migrate(db)
        yield db
    except sqlite3.Error as error:
        raise CatalogueError(_meaning(error, path)) from error
    finally:
        if connection is not None:
            connection.close()


def _refuse_strangers(db: Database, path: Path) -> None:
    """A database with tables that is no catalogue is somebody else's."""
    application = db.execute("PRAGMA application_id").fetchone()[0]
    if application != APPLICATION_ID and (application != 0 or db.table_names()):
        raise CatalogueError(f"{str(path)!r} is a database, but no parts catalogue")


def _meaning(error: sqlite3.Error, path: Path) -> str:
    """What an error of SQLite means to the user."""
    name, text = str(path), str(error)
    if "locked" in text or "busy" in text:
        return f"{name!r} is being changed by another program; try again"
    if "not a database" in text:
        return f"{name!r} is not a database"
    if "CHECK constraint failed" in text or "UNIQUE constraint failed" in text:
        return f"the catalogue refuses a part: {text}"
    return f"{name!r} cannot be written: {text}"


def save(db: Database, parts: Iterable[Part]) -> None:
    """Put parts in, each in place of one of the same id; all or none. Raises sqlite3 errors."""
    db.execute("BEGIN IMMEDIATE")
    try:
        for part in parts:
            _save_one(db, part)
    except BaseException:
        db.execute("ROLLBACK")
        raise
    db.execute("COMMIT")


def _save_one(db: Database, part: Part) -> None:
    own = [field for field in described(part.kind) if field.name not in SHARED]
    shared = {name: getattr(part, name) for name in SHARED}
    columns = {
        name: value
        for field in own
        for name, value in columns_with_values(field, part).items()
    }
    db.execute("DELETE FROM part WHERE id = ?", [part.id])
    _insert(db, "part", {"id": part.id, "kind": part.kind, **shared})
    _insert(db, part.kind, {"id": part.id, "kind": part.kind, **columns})
    for field in own:
        if field.name in LISTS:
            for row in rows_of(field, part):
                _insert(db, LISTS[field.name], {"part_id": part.id, **row})
    for name, text in part.written.items():
        _insert(db, "written", {"part_id": part.id, "field": name, "text": text})


def _insert(db: Database, table: str, row: dict[str, object]) -> None:
    """One row, inside the caller's transaction."""
    marks = ", ".join("?" * len(row))
    db.execute(f"INSERT INTO {table} ({', '.join(row)}) VALUES ({marks})", list(row.values()))
