"""The layout with a history: every state a part was in stays, with who wrote it, when and why.

Frozen: a later change is a migration of its own. Parts have an integer `key` that their rows hang
on, so that a large import only appends. `written` is one JSON object a part. `change` is one row a
command, `revision` one a part and change; triggers let neither be altered or taken away. No CHECK
calls a JSON function: tools that trust no schema would refuse to write.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from catalogue.table_words import (
    band,
    choice,
    flag,
    needed,
    positive,
    record,
    temperature,
    text,
    whole,
)

if TYPE_CHECKING:
    from sqlite_utils import Database

_LISTS: Final = {
    "interrupt_rating": (
        ("voltage", "current"),
        f"{needed('voltage')}, {needed('current')}",
        "PRIMARY KEY (part_key, position), UNIQUE (part_key, voltage)",
    ),
    "intermittent": (
        ("current", "time"),
        f"{needed('current')}, {needed('time')}",
        "PRIMARY KEY (part_key, position)",
    ),
    "derating": (
        ("temperature", "factor"),
        "temperature REAL NOT NULL CHECK (temperature > -273.15 AND temperature <= 2000), "
        "factor REAL NOT NULL CHECK (factor > 0 AND factor <= 10)",
        "PRIMARY KEY (part_key, position), UNIQUE (part_key, temperature)",
    ),
    "curve_point": (
        ("side", "current", "time"),
        "side TEXT NOT NULL CHECK (side IN ('fastest', 'slowest', 'average_melt')), "
        f"{needed('current')}, {needed('time')}",
        "PRIMARY KEY (part_key, side, position), UNIQUE (part_key, side, current)",
    ),
}

_OVERCURRENT: Final = (
    text("family"),
    positive("rated_current", "rated_voltage", "melting_i2t", "clearing_i2t"),
    band("resistance", ">= 0"),
    temperature("terminal_limit"),
    flag("curve_gates"),
)

_KINDS: Final = {
    "fuse": (
        *_OVERCURRENT,
        "curve_tolerance REAL CHECK (curve_tolerance > 0 AND curve_tolerance <= 0.5)",
    ),
    "breaker": (*_OVERCURRENT, whole("poles"), flag("polarised", "trip_free")),
    "cable": (
        positive("area", "voltage", "outside_diameter"),
        text("awg"),
        choice("material", "copper"),
        choice(
            "stranding", "class 1", "class 2", "class 5", "class 5 tinned", "class 6",
            "class 6 tinned", "class 2 tinned", "class k", "class k tinned", "other",
        ),
        temperature("insulation_temperature"),
        temperature("short_circuit_temperature"),
        band("resistance_20c"),
    ),
    "busbar": (
        positive("rated_current", "voltage", "width", "thickness"),
        choice("material", "copper", "tinned copper", "brass", "aluminium"),
        record("short_time_current", "short_time_time"),
    ),
    "disconnect": (
        positive("rated_current", "voltage"),
        record("breaking_current", "breaking_voltage"),
        record("withstand_current", "withstand_time"),
        band("resistance", ">= 0"),
        flag("remote"),
        temperature("terminal_limit"),
    ),
    "channel": (
        positive("rated_current", "voltage", "trip_current"),
        flag("fails_shorted"),
        band("resistance", ">= 0"),
    ),
    "battery": (
        choice(
            "chemistry", "lfp", "nmc", "lto", "lead-acid flooded", "lead-acid agm",
            "lead-acid gel", "sodium-ion", "nicd",
        ),
        positive("nominal_voltage", "capacity", "charge_voltage", "short_circuit_current"),
        band("emf"),
        band("resistance"),
        positive("discharge_continuous"),
        record("discharge_peak_current", "discharge_peak_time"),
        whole("cells"),
    ),
}  # fmt: skip

_ID: Final = "CHECK ({0} = trim({0}) AND length({0}) BETWEEN 1 AND 100)"
_SHARED: Final = ("id", "kind", "description", "document", "page", "reviewed", "status", "notes")

_PART: Final = (
    f"CREATE TABLE part_keyed (key INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE {_ID.format('id')},"
    " kind TEXT NOT NULL, "
    + text("description", "document", "page", "notes", "reviewed_by")
    + ", reviewed TEXT CHECK (date(reviewed, '+0 days') IS reviewed), "
    + choice("status", "draft", "reviewed", "retired")
    + f", successor TEXT {_ID.format('successor')}"
    ", written TEXT CHECK (written LIKE '{%}')"
    ", CHECK (successor IS NULL OR (status IS 'retired' AND successor <> id))) STRICT"
)

_WHEN: Final = "'____-__-__T__:__:__.___Z'"
_HISTORY: Final = (
    f"""CREATE TABLE change (
        number INTEGER PRIMARY KEY,
        changed_at TEXT NOT NULL CHECK (changed_at LIKE {_WHEN}
            AND julianday(changed_at) IS NOT NULL),
        changed_by TEXT NOT NULL CHECK (trim(changed_by, char(32, 9, 10, 13)) <> ''),
        {text("why")}) STRICT""",
    f"""CREATE TABLE revision (
        sequence INTEGER PRIMARY KEY,
        part_id TEXT NOT NULL {_ID.format("part_id")},
        number INTEGER NOT NULL CHECK (number >= 1),
        change INTEGER NOT NULL REFERENCES change (number),
        status TEXT CHECK (status IN ('draft', 'reviewed', 'retired', 'removed')),
        document TEXT,
        page TEXT,
        body TEXT CHECK (body LIKE '{{%}}'),
        sha256 TEXT CHECK (length(sha256) = 64),
        UNIQUE (part_id, number), CHECK ((body IS NULL) = (sha256 IS NULL)),
        CHECK ((body IS NULL) = (status IS 'removed'))) STRICT""",
)


def _stays(table: str, key: str) -> tuple[str, ...]:
    """Triggers: a row of this table is written once. OR REPLACE would go past the others."""
    refused = f"BEGIN SELECT RAISE(ABORT, 'a {table} stays as it was written'); END"
    return (
        f"CREATE TRIGGER {table}_not_altered BEFORE UPDATE ON {table} {refused}",
        f"CREATE TRIGGER {table}_not_deleted BEFORE DELETE ON {table} {refused}",
        f"CREATE TRIGGER {table}_not_replaced BEFORE INSERT ON {table} "
        f"WHEN EXISTS (SELECT 1 FROM {table} WHERE {key} = new.{key}) {refused}",
    )


_IN_TURN: Final = """
    CREATE TRIGGER revision_in_turn BEFORE INSERT ON revision
    WHEN new.number <> 1 + coalesce(
        (SELECT max(number) FROM revision WHERE part_id = new.part_id), 0)
    BEGIN SELECT RAISE(ABORT, 'revisions of a part are numbered in turn'); END"""


def _of_kind(kind: str) -> str:
    return f"""
        CREATE TRIGGER {kind}_of_kind BEFORE INSERT ON {kind}
        WHEN (SELECT kind FROM part WHERE key = new.key) IS NOT '{kind}'
        BEGIN SELECT RAISE(ABORT, 'CHECK constraint failed: {kind} of a {kind}'); END"""


def _falls(table: str, rising: str, falling: str, same: str = "") -> str:
    """A trigger: from row to row one column rises, one never does."""
    return f"""
        CREATE TRIGGER {table}_falls BEFORE INSERT ON {table}
        WHEN EXISTS (
            SELECT 1 FROM {table} AS other
            WHERE other.part_key = new.part_key {same} AND (
                (other.position < new.position) <> (other.{rising} < new.{rising})
                OR (other.{rising} < new.{rising} AND other.{falling} < new.{falling})
                OR (other.{rising} > new.{rising} AND other.{falling} > new.{falling})))
        BEGIN SELECT RAISE(ABORT, 'CHECK constraint failed: {table} in order'); END"""


def revisions(db: Database) -> None:
    """Keys for parts, one JSON of texts, and a history that only grows."""
    db.execute(_PART)
    shared = ", ".join(_SHARED)
    texts = "SELECT json_group_object(field, text) FROM written WHERE part_id = part.id"
    db.execute(
        f"INSERT INTO part_keyed ({shared}, written) "
        f"SELECT {shared}, iif(EXISTS (SELECT 1 FROM written WHERE part_id = part.id), ({texts}), "
        "NULL) FROM part ORDER BY id"
    )
    for kind, columns in _KINDS.items():
        _keyed_kind(db, kind, columns)
    for table, (names, definitions, keys) in _LISTS.items():
        _keyed_list(db, table, ", ".join(names), definitions, keys)
    for table in ("written", "part"):
        db.execute(f"DROP TABLE {table}")
    for table in ("part", *_KINDS, *_LISTS):
        db.execute(f"ALTER TABLE {table}_keyed RENAME TO {table}")
    db.execute("CREATE INDEX part_by_kind ON part (kind, id)")
    for statement in (*_HISTORY, *_stays("change", "number"), *_stays("revision", "sequence")):
        db.execute(statement)
    falls = (
        _falls("curve_point", "current", "time", "AND other.side = new.side"),
        _falls("derating", "temperature", "factor"),
    )
    for statement in (_IN_TURN, *falls, *map(_of_kind, _KINDS)):
        db.execute(statement)


def _keyed_kind(db: Database, kind: str, columns: tuple[str, ...]) -> None:
    key = "key INTEGER PRIMARY KEY REFERENCES part_keyed (key) ON DELETE CASCADE"
    db.execute(f"CREATE TABLE {kind}_keyed ({key}, {', '.join(columns)}) STRICT")
    found = db.execute(f"SELECT name FROM pragma_table_info('{kind}')").fetchall()
    names = ", ".join(name for (name,) in found if name not in ("id", "kind"))
    db.execute(
        f"INSERT INTO {kind}_keyed (key, {names}) "
        f"SELECT key, {names} FROM {kind} JOIN part_keyed USING (id)"
    )
    db.execute(f"DROP TABLE {kind}")


def _keyed_list(db: Database, table: str, names: str, columns: str, keys: str) -> None:
    db.execute(
        f"CREATE TABLE {table}_keyed ("
        "part_key INTEGER NOT NULL REFERENCES part_keyed (key) ON DELETE CASCADE, "
        f"position INTEGER NOT NULL CHECK (position >= 0), {columns}, {keys}) STRICT, WITHOUT ROWID"
    )
    db.execute(
        f"INSERT INTO {table}_keyed (part_key, position, {names}) "
        f"SELECT key, position, {names} FROM {table} JOIN part_keyed ON id = part_id"
    )
    db.execute(f"DROP TABLE {table}")
