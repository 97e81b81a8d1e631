"""Opens catalogue files for change; sqlite-utils is imported only here, when somebody writes."""

from __future__ import annotations

import sqlite3
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from catalogue.errors import CatalogueError, meaning
from catalogue.store import APPLICATION_ID, GENERIC

if TYPE_CHECKING:
    from sqlite_utils import Database

#: Seconds to wait for somebody else's change to end: that of a large import takes a while.
PATIENCE = 10.0


def quiet(_: str) -> None:
    """Takes what there is to tell, where nobody listens."""


@contextmanager
def open_for_change(
    path: Path, *, generic: bool = False, tell: Callable[[str], None] = quiet
) -> Iterator[Database]:
    """The catalogue file at `path`, made if there is none, in the newest layout.

    tell -- called with a sentence where there is something to tell: the backup before a migration
    Raises CatalogueError: the shipped file, no catalogue, a newer one, locked, no place to write.
    """
    from sqlite_utils import Database

    if not generic and path.resolve() == Path(GENERIC).resolve():
        raise CatalogueError("the generic parts are read-only; name a catalogue file of your own")
    connection = None
    try:
        connection = sqlite3.connect(path, timeout=PATIENCE, isolation_level=None)
        db = Database(connection)
        _make_ready(db, path, generic, tell)
        yield db
    except (sqlite3.Error, ValueError) as error:
        raise CatalogueError(meaning(error, str(path), "written")) from error
    finally:
        if connection is not None:
            connection.close()


def _make_ready(db: Database, path: Path, generic: bool, tell: Callable[[str], None]) -> None:
    """Nothing is written to a file that is refused."""
    from catalogue.backup import before_migration
    from catalogue.migrations import migrate, version_of

    _refuse_strangers(db, path)
    version_of(db)
    db.execute("PRAGMA trusted_schema = OFF")
    if not generic:
        _write_ahead(db)
    db.execute("PRAGMA synchronous = FULL")
    kept: list[Path] = []
    found = migrate(db, lambda version: kept.append(before_migration(path, version)))
    db.execute("PRAGMA foreign_keys = ON")
    if kept:
        tell(
            f"{str(path)!r} had layout {found} and was brought to the newest; as it was it is kept "
            f"in {str(kept[0])!r}"
        )


def _write_ahead(db: Database) -> None:
    """Readers go on while somebody writes; a change is in the file whole or not at all.

    The switch asks for the file alone, and does not wait for it by itself.
    """
    until = time.monotonic() + PATIENCE
    while True:
        try:
            db.execute("PRAGMA journal_mode = WAL").fetchone()
        except sqlite3.OperationalError as error:
            if "locked" not in str(error) or time.monotonic() > until:
                raise
            time.sleep(0.01)
        else:
            return


def _refuse_strangers(db: Database, path: Path) -> None:
    """A database with tables that is no catalogue is somebody else's."""
    application = db.execute("PRAGMA application_id").fetchone()[0]
    if application != APPLICATION_ID and (application != 0 or db.table_names()):
        raise CatalogueError(f"{str(path)!r} is a database, but no parts catalogue")


@contextmanager
def transaction(db: Database) -> Iterator[None]:
    """All or nothing of what is done inside; one command has one. Raises sqlite3 errors."""
    db.execute("BEGIN IMMEDIATE")
    try:
        yield
    except BaseException:
        # SQLite itself has ended it where the disk is full or a page is unreadable.
        if db.conn.in_transaction:
            db.execute("ROLLBACK")
        raise
    db.execute("COMMIT")
