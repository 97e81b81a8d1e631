"""Writes `SCHEMA.md`, the page about the tables and views: `python -m catalogue.schema_page`.

Made from an empty catalogue as this program makes it, so that nothing in it can be stale.
"""

from __future__ import annotations

import sqlite3
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from catalogue.migrations import MIGRATIONS, migrate
from catalogue.store import SCHEMA_VERSION
from catalogue.views import every_view

PAGE: Final = Path(__file__).with_name("SCHEMA.md")

_HEAD: Final = """# The catalogue as a database

Made by `fusewright parts schema > catalogue/SCHEMA.md`; a test fails when it is stale.

A catalogue is one SQLite file (3.37 or later reads it). Any tool may read the views below; only
Fusewright should write: it keeps the history. Copy a file with `fusewright parts backup`, not by
hand: changes may still stand in the `-wal` file beside it.

- `application_id` is 0x46757365, `user_version` the number of migrations: {version} ({names}).
- Views give the units in their column names. Tables hold SI units (A, V, Ω, m, m², s, A·s),
  temperatures in °C.
- An empty cell means that no document states it. It is never a default.
- Nothing in `change` and `revision` can be altered or deleted: triggers refuse it.
"""
_TABLES: Final = {
    "part": "what all kinds share; `written`: the text of each quantity as it was entered",
    "change": "one row a command that changed something",
    "revision": "one row a state of a part; `body`: the whole part, empty where it was removed",
    "migration": "the layouts the file has been through",
}


def schema_page() -> str:
    """The page, as markdown."""
    from sqlite_utils import Database

    connection = sqlite3.connect(":memory:", isolation_level=None)
    try:
        migrate(Database(connection))
        return "\n".join(_lines(connection)) + "\n"
    finally:
        connection.close()


def _lines(connection: sqlite3.Connection) -> Iterator[str]:
    names = ", ".join(f"`{step.__name__}`" for step in MIGRATIONS)
    yield _HEAD.format(version=SCHEMA_VERSION, names=names)
    yield "## Views\n"
    for view in every_view():
        yield from (f"### {view.name}\n", f"{view.meaning[:1].upper()}{view.meaning[1:]}.\n")
        yield from ("| column | what it is |", "| --- | --- |")
        found = {row[1] for row in connection.execute(f"PRAGMA table_info({view.name})")}
        yield from (f"| `{each.name}` | {each.meaning} |" for each in view.columns
                    if each.name in found)  # fmt: skip
        yield ""
    yield "## Tables\n"
    shadows = {row[1] for row in connection.execute("PRAGMA table_list") if row[2] == "shadow"}
    query = (
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' "
        "ORDER BY rowid"
    )
    for (name,) in connection.execute(query).fetchall():
        if name in shadows:
            continue
        columns = [
            f"`{row[1]}` {row[2]}".rstrip()
            for row in connection.execute(f"PRAGMA table_info({name})")
        ]
        about = f" ({_TABLES[name]})" if name in _TABLES else ""
        yield f"- **{name}**{about}: {', '.join(columns)}"


if __name__ == "__main__":
    PAGE.write_text(schema_page(), encoding="utf-8")
    sys.stdout.write(f"{PAGE} written\n")
