"""Where each field of a part stands in the database, made from the fields' metadata.

Reading (`store`), writing and the CSV sheets share it, so a field has one place only.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import Field, fields
from functools import cache
from typing import Any, Final

from catalogue.described import IN_FILES_ONLY
from catalogue.parts import (
    KINDS,
    Band,
    BreakingRating,
    CurrentFor,
    Curve,
    Discharge,
    InterruptRating,
    Part,
)

#: Columns of table `part`; everything else stands in the table of the kind.
SHARED: Final = (
    "description", "document", "page", "reviewed", "status", "notes", "reviewed_by", "successor",
)  # fmt: skip

#: Field -> table of its rows.
LISTS: Final = {
    "interrupt_ratings": "interrupt_rating",
    "intermittent": "intermittent",
    "derating": "derating",
    "curve": "curve_point",
}

#: What lies between the points of a curve: a drawn line, or nothing (a standard's gates).
BETWEEN: Final = ("line", "gates")

#: The lists of points in a curve.
SIDES: Final = ("fastest", "slowest", "average_melt")

#: Names of a row's columns -> what makes it.
RECORDS: Final[Mapping[tuple[str, str], Any]] = {
    ("current", "time"): CurrentFor,
    ("current", "voltage"): BreakingRating,
    ("voltage", "current"): InterruptRating,
}


def described(kind: str) -> tuple[Field[Any], ...]:
    """The fields of a kind that a catalogue keeps, in order."""
    return _described(kind)


@cache
def _described(kind: str) -> tuple[Field[Any], ...]:
    return tuple(
        field
        for field in fields(KINDS[kind])
        if "shape" in field.metadata and IN_FILES_ONLY not in field.metadata
    )


def columns_of(field: Field[Any]) -> tuple[str, ...]:
    """The columns of a field in its kind's table; none for a list."""
    name, shape = field.name, field.metadata["shape"]
    if shape == "curve":
        return tuple(f"{name}_{key}" for key in ("gates", "tolerance")[: 1 + averaged(field)])
    if name in LISTS:
        return ()
    if shape == "band":
        return (f"{name}_min", f"{name}_max")
    if shape == "mapping":
        return tuple(f"{name}_{column}" for column, _ in field.metadata["columns"])
    if shape == "discharge":
        return (f"{name}_continuous", f"{name}_peak_current", f"{name}_peak_time")
    return (name,)


def averaged(field: Field[Any]) -> bool:
    """Whether a curve may be stated as an average melting curve with a tolerance."""
    return any(side == "average_melt" for _, side in field.metadata["columns"])


def curve_keys(field: Field[Any]) -> tuple[str, ...]:
    """What a curve may state: its lists of points, then the rest."""
    sides = tuple(said for said, _ in field.metadata["columns"])
    return (*sides, *(("tolerance",) if averaged(field) else ()), "between")


def value_of(field: Field[Any], row: Mapping[str, Any]) -> Any:
    """The field's value from its columns; None where nothing is stated."""
    found = [row[column] for column in columns_of(field)]
    shape = field.metadata["shape"]
    if all(value is None for value in found):
        return None
    if shape == "flag":
        return bool(found[0])
    if shape == "band":
        return Band(*found)
    if shape == "mapping":
        return RECORDS[tuple(column for column, _ in field.metadata["columns"])](*found)
    if shape == "discharge":
        return Discharge(found[0], None if found[1] is None else CurrentFor(*found[1:]))
    return found[0]


def columns_with_values(field: Field[Any], part: Part) -> dict[str, Any]:
    """The field's columns and what goes into them: the inverse of `value_of`."""
    value, names = getattr(part, field.name), columns_of(field)
    shape = field.metadata["shape"]
    if value is None or not names:
        return dict.fromkeys(names)
    if shape == "curve":
        return dict(zip(names, (int(value.gates), value.tolerance), strict=False))
    if shape == "band":
        return dict(zip(names, (value.min, value.max), strict=True))
    if shape == "mapping":
        found = (getattr(value, column) for column, _ in field.metadata["columns"])
        return dict(zip(names, found, strict=True))
    if shape == "discharge":
        peak = value.peak or CurrentFor(None, None)  # type: ignore[arg-type]
        return dict(zip(names, (value.continuous, peak.current, peak.time), strict=True))
    return {names[0]: int(value) if shape == "flag" else value}


def list_of(field: Field[Any], rows: list[tuple[Any, ...]], row: Mapping[str, Any]) -> Any:
    """The field's list from its rows (in order of position): (side, current, time) for a curve.

    row -- the part's row in the table of its kind, where a curve's other columns stand
    """
    shape = field.metadata["shape"]
    if shape == "curve":
        if not rows:
            return None
        sides = {
            side: tuple((current, time) for of, current, time in rows if of == side)
            for side in SIDES
        }
        tolerance = row.get(f"{field.name}_tolerance")
        return Curve(**sides, gates=bool(row[f"{field.name}_gates"]), tolerance=tolerance)
    if shape == "pairs":
        return tuple(rows)
    make = RECORDS[tuple(column for column, _ in field.metadata["columns"])]
    return tuple(make(*row) for row in rows)


def list_columns(field: Field[Any]) -> tuple[str, ...]:
    """The columns of a list's table, beside part_id and position."""
    if field.metadata["shape"] == "curve":
        return ("side", "current", "time")
    return tuple(column for column, _ in field.metadata["columns"])


def rows_of(field: Field[Any], part: Part) -> list[dict[str, Any]]:
    """The rows of a list field, each with its position: the inverse of `list_of`."""
    value = getattr(part, field.name)
    if not value:
        return []
    names = list_columns(field)
    if field.metadata["shape"] == "curve":
        return [
            {"position": position, "side": side, "current": current, "time": time}
            for side in SIDES
            for position, (current, time) in enumerate(getattr(value, side))
        ]
    found = [
        tuple(item) if isinstance(item, tuple) else tuple(getattr(item, name) for name in names)
        for item in value
    ]
    return [
        {"position": position, **dict(zip(names, row, strict=True))}
        for position, row in enumerate(found)
    ]
