"""Which layouts a catalogue file has been through, and how it gets to the newest.

Each migration is a function whose name is recorded in the table `migration`; the count of them is
the file's `user_version`, which a reader checks without opening any table.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Final

from catalogue.curve_basis import curve_basis
from catalogue.errors import CatalogueError
from catalogue.first_tables import first_tables
from catalogue.store import APPLICATION_ID, SCHEMA_VERSION

if TYPE_CHECKING:
    from sqlite_utils import Database

#: In the order they are applied. Never changed or removed once released; new ones go last.
MIGRATIONS: Final[tuple[Callable[[Database], None], ...]] = (first_tables, curve_basis)


def migrate(db: Database) -> None:
    """Bring a file to the newest layout, all or nothing. Raises CatalogueError for a newer one."""
    version = db.execute("PRAGMA user_version").fetchone()[0]
    if version > SCHEMA_VERSION:
        raise CatalogueError("the catalogue was made by a newer Fusewright; update this one")
    if version == SCHEMA_VERSION:
        return
    with db.conn:
        db.execute("BEGIN IMMEDIATE")
        db.execute("CREATE TABLE IF NOT EXISTS migration (name TEXT PRIMARY KEY) STRICT")
        for step in MIGRATIONS[version:]:
            step(db)
            db.execute("INSERT INTO migration (name) VALUES (?)", [step.__name__])
        db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        db.execute(f"PRAGMA user_version = {len(MIGRATIONS)}")
