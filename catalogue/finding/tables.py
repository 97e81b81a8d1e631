"""What a catalogue file has for finding parts: an index of words, and one of each kind's measures.

Frozen: a later change is a migration of its own. Triggers keep the words in step with the parts,
whoever writes them; a part's own words come back by the view `part_text`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from sqlite_utils import Database

_COLUMNS: Final = "id, kind, family, description, document"
_WITH_FAMILY: Final = ("fuse", "breaker")
_KINDS: Final = (*_WITH_FAMILY, "cable", "busbar", "disconnect", "channel", "battery")

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
_MEASURES: Final = (
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


def _put(key: str) -> str:
    words = f"INSERT INTO part_words (rowid, {_COLUMNS})"
    return f"{words} SELECT key, {_COLUMNS} FROM part_text WHERE key = {key}"


def _take(key: str) -> str:
    words = f"INSERT INTO part_words (part_words, rowid, {_COLUMNS})"
    return f"{words} SELECT 'delete', key, {_COLUMNS} FROM part_text WHERE key = {key}"


def _triggers() -> list[str]:
    """A part's words are complete with its row in the table of its kind, and go with the part."""
    made = [f"CREATE TRIGGER part_words_gone BEFORE DELETE ON part BEGIN {_take('old.key')}; END"]
    made += [
        f"CREATE TRIGGER {kind}_words_come AFTER INSERT ON {kind} BEGIN {_put('new.key')}; END"
        for kind in _KINDS
    ]
    changed = [("part", "id, kind, description, document")]
    changed += [(kind, "family") for kind in _WITH_FAMILY]
    for table, columns in changed:
        of = f"UPDATE OF {columns} ON {table}"
        made.append(f"CREATE TRIGGER {table}_words_go BEFORE {of} BEGIN {_take('old.key')}; END")
        made.append(f"CREATE TRIGGER {table}_words_change AFTER {of} BEGIN {_put('new.key')}; END")
    return made


def found_by_words_and_measure(db: Database) -> None:
    """An index of words that follows the parts, and indexes of what parts are asked for by."""
    db.execute(_VIEW)
    db.execute(_WORDS)
    db.execute("INSERT INTO part_words (part_words) VALUES ('rebuild')")
    for statement in _triggers():
        db.execute(statement)
    for kind, column in _MEASURES:
        db.execute(f"CREATE INDEX {kind}_by_{column} ON {kind} ({column})")
