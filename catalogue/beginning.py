"""The first revisions of parts that were in a file before it kept a history."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from catalogue.changes import now
from catalogue.revisions import canonical, digest
from catalogue.rows import part_from

if TYPE_CHECKING:
    from sqlite_utils import Database

#: Who stands for the entry of parts whose history nobody kept.
NOBODY: Final = "unknown"
_WHY: Final = "as it was found when the catalogue began to keep a history"
_FIRST: Final = (
    "INSERT INTO revision (part_id, number, change, status, document, page, body, sha256) "
    "VALUES (?, 1, ?, ?, ?, ?, ?, ?)"
)


def begin_history(db: Database) -> None:
    """Give every part that has no revision its first, inside the caller's transaction."""

    def ask(query: str, *values: Any) -> list[tuple[Any, ...]]:
        found: list[tuple[Any, ...]] = db.conn.execute(query, values).fetchall()
        return found

    ids = ask("SELECT id FROM part WHERE id NOT IN (SELECT part_id FROM revision) ORDER BY id")
    if not ids:
        return
    made = db.conn.execute(
        "INSERT INTO change (changed_at, changed_by, why) VALUES (?, ?, ?)", (now(), NOBODY, _WHY)
    )
    change = made.lastrowid
    for (part_id,) in ids:
        part = part_from(ask, part_id, "shop", "the catalogue")
        if part is not None:
            text = canonical(part)
            row = (part_id, change, part.status, part.document, part.page, text, digest(text))
            db.conn.execute(_FIRST, row)
