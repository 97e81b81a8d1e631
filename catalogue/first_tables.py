"""The tables as they were first laid out. Frozen: a later change is a migration of its own.

One table a kind, what all parts share in `part`, lists in tables of their own, the text of every
quantity in `written`. Values are SI (temperatures in degC). CHECKs refuse what no part can be.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sqlite_utils import Database


def _positive(*names: str) -> str:
    return ", ".join(f"{name} REAL CHECK ({name} > 0 AND {name} <= 1e18)" for name in names)


def _temperature(name: str) -> str:
    return f"{name} REAL CHECK ({name} > -273.15 AND {name} <= 2000)"


def _text(*names: str) -> str:
    blanks = "char(32, 9, 10, 13)"
    return ", ".join(f"{name} TEXT CHECK (trim({name}, {blanks}) <> '')" for name in names)


def _choice(name: str, *choices: str) -> str:
    return f"{name} TEXT CHECK ({name} IN ({', '.join(repr(choice) for choice in choices)}))"


def _flag(*names: str) -> str:
    return ", ".join(f"{name} INTEGER CHECK ({name} IN (0, 1))" for name in names)


def _whole(name: str) -> str:
    return f"{name} INTEGER CHECK ({name} BETWEEN 1 AND 10000)"


def _together(first: str, second: str) -> str:
    """Two columns that only mean something together: both stated, or neither."""
    return f"CHECK (({first} IS NULL) = ({second} IS NULL))"


def _band(name: str, least: str = "> 0") -> str:
    """A lower and an upper bound, the lower not above the upper."""
    low, high = f"{name}_min", f"{name}_max"
    return (
        f"{low} REAL CHECK ({low} {least} AND {low} <= 1e18), "
        f"{high} REAL CHECK ({high} >= {low} AND {high} <= 1e18) {_together(low, high)}"
    )


def _record(first: str, second: str) -> str:
    return f"{_positive(first, second)} {_together(first, second)}"


def _kind(kind: str, *columns: str) -> str:
    """The table of one kind; a row belongs to a part of that kind and goes with it."""
    return (
        f"CREATE TABLE {kind} (id TEXT PRIMARY KEY, kind TEXT NOT NULL CHECK (kind = '{kind}'), "
        f"{', '.join(columns)}, "
        "FOREIGN KEY (id, kind) REFERENCES part (id, kind) ON DELETE CASCADE) STRICT;"
    )


def _rows(name: str, *columns: str, also: str = "") -> str:
    """A table of list rows in their order; they go with their part."""
    body = ", ".join(columns)
    return (
        f"CREATE TABLE {name} (part_id TEXT NOT NULL REFERENCES part (id) ON DELETE CASCADE, "
        f"position INTEGER NOT NULL CHECK (position >= 0), {body}, "
        f"{also or 'PRIMARY KEY (part_id, position)'}) STRICT, WITHOUT ROWID;"
    )


def _needed(name: str, least: str = "> 0") -> str:
    return f"{name} REAL NOT NULL CHECK ({name} {least} AND {name} <= 1e18)"


_OVERCURRENT = (
    _text("family"),
    _positive("rated_current", "rated_voltage", "melting_i2t", "clearing_i2t"),
    _band("resistance", ">= 0"),
    _temperature("terminal_limit"),
)

_PART = (
    "CREATE TABLE part (id TEXT PRIMARY KEY "
    "CHECK (id = trim(id) AND length(id) BETWEEN 1 AND 100), "
    "kind TEXT NOT NULL, "
    + _text("description", "document", "page", "notes")
    + ", reviewed TEXT CHECK (date(reviewed, '+0 days') IS reviewed), "
    + _choice("status", "draft", "reviewed", "retired")
    + ", UNIQUE (id, kind)) STRICT;"
)

_KINDS = (
    _kind("fuse", *_OVERCURRENT),
    _kind("breaker", *_OVERCURRENT, _whole("poles"), _flag("polarised", "trip_free")),
    _kind(
        "cable",
        _positive("area", "voltage", "outside_diameter"),
        _text("awg"),
        _choice("material", "copper"),
        _choice(
            "stranding", "class 1", "class 2", "class 5", "class 5 tinned", "class 6",
            "class 6 tinned", "class 2 tinned", "class k", "class k tinned", "other",
        ),
        _temperature("insulation_temperature"),
        _band("resistance_20c"),
    ),
    _kind(
        "busbar",
        _positive("rated_current", "voltage", "width", "thickness"),
        _choice("material", "copper", "tinned copper", "brass", "aluminium"),
        _record("short_time_current", "short_time_time"),
    ),
    _kind(
        "disconnect",
        _positive("rated_current", "voltage"),
        _record("breaking_current", "breaking_voltage"),
        _record("withstand_current", "withstand_time"),
        _band("resistance", ">= 0"),
        _flag("remote"),
        _temperature("terminal_limit"),
    ),
    _kind(
        "channel", _positive("rated_current", "voltage", "trip_current"), _flag("fails_shorted"),
        _band("resistance", ">= 0"),
    ),
    _kind(
        "battery",
        _choice(
            "chemistry", "lfp", "nmc", "lto", "lead-acid flooded", "lead-acid agm",
            "lead-acid gel", "sodium-ion", "nicd",
        ),
        _positive("nominal_voltage", "capacity", "charge_voltage", "short_circuit_current"),
        _band("emf"),
        _band("resistance"),
        _positive("discharge_continuous"),
        _record("discharge_peak_current", "discharge_peak_time"),
        _whole("cells"),
    ),
)

_LISTS = (
    _rows(
        "interrupt_rating", _needed("voltage"), _needed("current"),
        also="PRIMARY KEY (part_id, position), UNIQUE (part_id, voltage)",
    ),
    _rows("intermittent", _needed("current"), _needed("time")),
    _rows(
        "derating",
        "temperature REAL NOT NULL CHECK (temperature > -273.15 AND temperature <= 2000)",
        "factor REAL NOT NULL CHECK (factor > 0 AND factor <= 10)",
        also="PRIMARY KEY (part_id, position), UNIQUE (part_id, temperature)",
    ),
    _rows(
        "curve_point", "side TEXT NOT NULL CHECK (side IN ('fastest', 'slowest'))",
        _needed("current"), _needed("time"),
        also="PRIMARY KEY (part_id, side, position), UNIQUE (part_id, side, current)",
    ),
    "CREATE TABLE written (part_id TEXT NOT NULL REFERENCES part (id) ON DELETE CASCADE, "
    "field TEXT NOT NULL, text TEXT NOT NULL, PRIMARY KEY (part_id, field)) STRICT, WITHOUT ROWID;",
)



def _falls(table: str, rising: str, falling: str, same: str = "") -> str:
    """A trigger for what a CHECK cannot see: from row to row one column rises, one never does."""
    return f"""
        CREATE TRIGGER {table}_falls BEFORE INSERT ON {table}
        WHEN EXISTS (
            SELECT 1 FROM {table} AS other
            WHERE other.part_id = new.part_id {same} AND (
                (other.position < new.position) <> (other.{rising} < new.{rising})
                OR (other.{rising} < new.{rising} AND other.{falling} < new.{falling})
                OR (other.{rising} > new.{rising} AND other.{falling} > new.{falling})))
        BEGIN SELECT RAISE(ABORT, 'CHECK constraint failed: {table} in order'); END;"""


_TRIGGERS = (
    # A larger current never takes longer, on either side of a curve.
    _falls("curve_point", "current", "time", "AND other.side = new.side"),
    _falls("derating", "temperature", "factor"),
)


def first_tables(db: Database) -> None:
    """Parts of seven kinds, their lists, and their figures as written."""
    for statement in (_PART, *_KINDS, *_LISTS, *_TRIGGERS):
        db.execute(statement)
