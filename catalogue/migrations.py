"""Which layouts a catalogue file has been through, and how it gets to the newest.

Each migration is a function whose name is recorded in the table `migration`; the count of them is
the file's `user_version`, which a reader checks without opening any table.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Final

from catalogue.beginning import begin_history
from catalogue.curve_basis import curve_basis
from catalogue.errors import CatalogueError
from catalogue.finding.tables import found_by_words_and_measure
from catalogue.first_tables import first_tables
from catalogue.history_tables import revisions
from catalogue.store import APPLICATION_ID, SCHEMA_VERSION
from catalogue.views import drop_views, make_views

if TYPE_CHECKING:
    from sqlite_utils import Database

#: In the order they are applied. Never changed or removed once released; new ones go last.
MIGRATIONS: Final[tuple[Callable[[Database], None], ...]] = (
    first_tables, curve_basis, revisions, found_by_words_and_measure,
)  # fmt: skip

#: The first layout that the views can be made of.
_WITH_VIEWS: Final = 3


def version_of(db: Database) -> int:
    """How many migrations the file has been through. Raises CatalogueError for a newer file."""
    version = int(db.execute("PRAGMA user_version").fetchone()[0])
    if version > SCHEMA_VERSION:
        raise CatalogueError("the catalogue was made by a newer Fusewright; update this one")
    return version


def migrate(db: Database, before: Callable[[int], None] | None = None) -> int:
    """Bring a file to the newest layout, all or nothing; the version it had.

    before -- called with that version when nobody else can write and nothing was changed yet;
              not for a file without parts
    Raises CatalogueError for a newer file, sqlite3 errors.
    """
    found = version_of(db)
    if found == SCHEMA_VERSION:
        return found
    # Rebuilding a table would take its rows' rows along; whether all fit is looked at in the end.
    db.execute("PRAGMA foreign_keys = OFF")
    db.execute("BEGIN IMMEDIATE")
    try:
        # Another program may have migrated the file since.
        found = version_of(db)
        if before is not None and 0 < found < SCHEMA_VERSION:
            before(found)
        # Renaming a table would look at views of it.
        drop_views(db)
        _apply(db, found)
        if len(MIGRATIONS) >= _WITH_VIEWS:
            make_views(db)
        if found:
            begin_history(db)
        if db.execute("PRAGMA foreign_key_check").fetchone():
            raise CatalogueError("the catalogue has rows that belong to no part; nothing was done")
    except BaseException:
        db.execute("ROLLBACK")
        raise
    db.execute("COMMIT")
    db.execute("PRAGMA foreign_keys = ON")
    return found


def _apply(db: Database, version: int) -> None:
    db.execute("CREATE TABLE IF NOT EXISTS migration (name TEXT PRIMARY KEY) STRICT")
    for step in MIGRATIONS[version:]:
        step(db)
        db.execute("INSERT INTO migration (name) VALUES (?)", [step.__name__])
    db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    db.execute(f"PRAGMA user_version = {len(MIGRATIONS)}")
