"""The tables as they were first laid out. Frozen: a later change is a migration of its own.

One table a kind, what all parts share in `part`, lists in tables of their own, the text of every
quantity in `written`. Values are SI (temperatures in degC). CHECKs refuse what no part can be.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

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


_OVERCURRENT = (
    text("family"),
    positive("rated_current", "rated_voltage", "melting_i2t", "clearing_i2t"),
    band("resistance", ">= 0"),
    temperature("terminal_limit"),
)

_PART = (
    "CREATE TABLE part (id TEXT PRIMARY KEY "
    "CHECK (id = trim(id) AND length(id) BETWEEN 1 AND 100), "
    "kind TEXT NOT NULL, "
    + text("description", "document", "page", "notes")
    + ", reviewed TEXT CHECK (date(reviewed, '+0 days') IS reviewed), "
    + choice("status", "draft", "reviewed", "retired")
    + ", UNIQUE (id, kind)) STRICT;"
)

_KINDS = (
    _kind("fuse", *_OVERCURRENT),
    _kind("breaker", *_OVERCURRENT, whole("poles"), flag("polarised", "trip_free")),
    _kind(
        "cable",
        positive("area", "voltage", "outside_diameter"),
        text("awg"),
        choice("material", "copper"),
        choice(
            "stranding", "class 1", "class 2", "class 5", "class 5 tinned", "class 6",
            "class 6 tinned", "class 2 tinned", "class k", "class k tinned", "other",
        ),
        temperature("insulation_temperature"),
        band("resistance_20c"),
    ),
    _kind(
        "busbar",
        positive("rated_current", "voltage", "width", "thickness"),
        choice("material", "copper", "tinned copper", "brass", "aluminium"),
        record("short_time_current", "short_time_time"),
    ),
    _kind(
        "disconnect",
        positive("rated_current", "voltage"),
        record("breaking_current", "breaking_voltage"),
        record("withstand_current", "withstand_time"),
        band("resistance", ">= 0"),
        flag("remote"),
        temperature("terminal_limit"),
    ),
    _kind(
        "channel", positive("rated_current", "voltage", "trip_current"), flag("fails_shorted"),
        band("resistance", ">= 0"),
    ),
    _kind(
        "battery",
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
)

_LISTS = (
    _rows(
        "interrupt_rating", needed("voltage"), needed("current"),
        also="PRIMARY KEY (part_id, position), UNIQUE (part_id, voltage)",
    ),
    _rows("intermittent", needed("current"), needed("time")),
    _rows(
        "derating",
        "temperature REAL NOT NULL CHECK (temperature > -273.15 AND temperature <= 2000)",
        "factor REAL NOT NULL CHECK (factor > 0 AND factor <= 10)",
        also="PRIMARY KEY (part_id, position), UNIQUE (part_id, temperature)",
    ),
    _rows(
        "curve_point", "side TEXT NOT NULL CHECK (side IN ('fastest', 'slowest'))",
        needed("current"), needed("time"),
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
