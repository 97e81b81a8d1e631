"""The layout after `first_tables`: what the points of a curve are, and hot ends of cables.

Frozen: a later change is a migration of its own.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sqlite_utils import Database

_COLUMNS = (
    "ALTER TABLE fuse ADD COLUMN curve_gates INTEGER CHECK (curve_gates IN (0, 1))",
    "ALTER TABLE breaker ADD COLUMN curve_gates INTEGER CHECK (curve_gates IN (0, 1))",
    "ALTER TABLE fuse ADD COLUMN curve_tolerance REAL "
    "CHECK (curve_tolerance > 0 AND curve_tolerance <= 0.5)",
    "ALTER TABLE cable ADD COLUMN short_circuit_temperature REAL "
    "CHECK (short_circuit_temperature > -273.15 AND short_circuit_temperature <= 2000)",
)

_POINTS = (
    """
    CREATE TABLE curve_point_wider (
        part_id TEXT NOT NULL REFERENCES part (id) ON DELETE CASCADE,
        position INTEGER NOT NULL CHECK (position >= 0),
        side TEXT NOT NULL CHECK (side IN ('fastest', 'slowest', 'average_melt')),
        current REAL NOT NULL CHECK (current > 0 AND current <= 1e18),
        time REAL NOT NULL CHECK (time > 0 AND time <= 1e18),
        PRIMARY KEY (part_id, side, position), UNIQUE (part_id, side, current)
    ) STRICT, WITHOUT ROWID""",
    "INSERT INTO curve_point_wider (part_id, position, side, current, time) "
    "SELECT part_id, position, side, current, time FROM curve_point",
    "DROP TABLE curve_point",
    "ALTER TABLE curve_point_wider RENAME TO curve_point",
    """
    CREATE TRIGGER curve_point_falls BEFORE INSERT ON curve_point
    WHEN EXISTS (
        SELECT 1 FROM curve_point AS other
        WHERE other.part_id = new.part_id AND other.side = new.side AND (
            (other.position < new.position) <> (other.current < new.current)
            OR (other.current < new.current AND other.time < new.time)
            OR (other.current > new.current AND other.time > new.time)))
    BEGIN SELECT RAISE(ABORT, 'CHECK constraint failed: curve_point in order'); END""",
)


def curve_basis(db: Database) -> None:
    """Gates or a line, an average melting curve with its tolerance; a cable's hottest end."""
    for statement in (*_COLUMNS, *_POINTS):
        db.execute(statement)
