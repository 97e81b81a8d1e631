"""What a catalogue file has for finding parts: an index of words, and one of each kind's measures.

Frozen: a later change is a migration of its own. The words are kept in step by `saving`, not by
triggers: SQLite lets none write to the index where a schema is not trusted, and none is here.
A part's own words come back by the view `part_text`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from sqlite_utils import Database

_COLUMNS: Final = "id, kind, family, description, document"

_VIEW: Final = """
    CREATE VIEW part_text AS
    SELECT part.key AS key, part.id AS id, part.kind AS kind,
        coalesce(fuse.family, breaker.family) AS family,
        part.description AS description, part.document AS document
    FROM part LEFT JOIN fuse USING (key) LEFT JOIN breaker USING (key)"""

#: No positions and no sizes of columns: only which part has a word is asked.
_WORDS: Final = (
    f"CREATE VIRTUAL TABLE part_words USING fts5 ({_COLUMNS}, content = 'part_text', "
    "content_rowid = 'key', detail = none, columnsize = 0)"
)

#: What is asked for most, smallest first; ties by the part's key, which an index ends in.
MEASURES: Final = (
    ("fuse", "rated_current"),
    ("fuse", "rated_voltage"),
    ("breaker", "rated_current"),
    ("breaker", "rated_voltage"),
    ("cable", "area"),
    ("busbar", "rated_current"),
    ("disconnect", "rated_current"),
    ("channel", "rated_current"),
    ("battery", "capacity"),
    ("battery", "nominal_voltage"),
)


#: Puts a part's words into the index, and takes them out by what its rows still say.
COME: Final = f"INSERT INTO part_words (rowid, {_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?)"
GO: Final = (
    f"INSERT INTO part_words (part_words, rowid, {_COLUMNS}) "
    f"SELECT 'delete', key, {_COLUMNS} FROM part_text WHERE key = ?"
)


def found_by_words_and_measure(db: Database) -> None:
    """An index of the parts' words, and indexes of what parts are asked for by."""
    db.execute(_VIEW)
    db.execute(_WORDS)
    db.execute("INSERT INTO part_words (part_words) VALUES ('rebuild')")
    for kind, column in MEASURES:
        db.execute(f"CREATE INDEX {kind}_by_{column} ON {kind} ({column})")
    db.execute(
        "CREATE INDEX interrupt_rating_by_voltage ON interrupt_rating (voltage, current, part_key)"
    )
