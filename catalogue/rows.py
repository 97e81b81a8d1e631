"""Puts a part together from its rows: one query for `part`, one for its kind, one for its lists.

Standard library only: every check of a system reads its parts this way.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import Field
from functools import cache
from types import MappingProxyType
from typing import Any, Final

from catalogue.errors import CatalogueError
from catalogue.layout import LISTS, SHARED, columns_of, described, list_columns, list_of, value_of
from catalogue.parts import KINDS, Part

try:
    # What `json` reads texts with, without the imports of all of it.
    from _json import scanstring
except ImportError:
    from json.decoder import scanstring  # type: ignore[attr-defined, no-redef]

#: Asks a database: the query and its values give all rows.
Rows = Callable[..., list[tuple[Any, ...]]]

_SHARED: Final = ", ".join(SHARED)
#: Shapes whose value is not what stands in the one column.
_MADE: Final = ("flag", "band", "mapping", "discharge")


@cache
def _own_query(kind: str) -> tuple[str, tuple[str, ...], tuple[Field[Any], ...]]:
    """The query for a part's row in the table of its kind, the columns it gives, and the fields
    that stand in them alone but are made of them in some way.
    """
    own = tuple(field for field in described(kind) if field.name not in SHARED)
    names = tuple(column for field in own for column in columns_of(field))
    single = tuple(
        field for field in own if field.name not in LISTS and field.metadata["shape"] in _MADE
    )
    return f"SELECT {', '.join(names)} FROM {kind} WHERE key = ?", names, single


@cache
def _plain_columns(kind: str) -> tuple[str, ...]:
    """The fields of a kind's table whose value is what stands in the column of their name."""
    return tuple(
        field.name
        for field in described(kind)
        if field.name not in SHARED
        and field.name not in LISTS
        and field.metadata["shape"] not in _MADE
    )


@cache
def _list_query(kind: str) -> tuple[str, tuple[tuple[Field[Any], int], ...]]:
    """One query for all lists of a part: (list, position, up to three cells), empty for a kind
    without any; and the fields, each with how many cells its rows have.
    """
    fields = tuple(field for field in described(kind) if field.name in LISTS)
    selects = []
    for field in fields:
        cells = ", ".join((*list_columns(field), "NULL")[:3])
        table = LISTS[field.name]
        selects.append(f"SELECT '{field.name}', position, {cells} FROM {table} WHERE part_key = ?1")
    return " UNION ALL ".join(selects), tuple((each, len(list_columns(each))) for each in fields)


def _in_order(row: tuple[Any, ...]) -> tuple[str, int]:
    return row[0], row[1]


def part_from(ask: Rows, part_id: str, origin: str, path: str) -> Part | None:
    """The part of that id, None if there is none. Raises CatalogueError for rows that miss."""
    found = ask(f"SELECT key, kind, written, {_SHARED} FROM part WHERE id = ?", part_id)
    if not found:
        return None
    key, kind, texts, *rest = found[0]
    shared = dict(zip(SHARED, rest, strict=True))
    if kind not in KINDS:
        raise CatalogueError(f"{part_id!r} in {path!r} is of unknown kind {kind!r}")
    query, names, single = _own_query(kind)
    rows = ask(query, key)
    if not rows:
        raise CatalogueError(f"{part_id!r} in {path!r} has no row in table {kind}")
    row = dict(zip(names, rows[0], strict=True))
    values = {field.name: value_of(field, row) for field in single}
    for name in _plain_columns(kind):
        values[name] = row[name]
    query, fields = _list_query(kind)
    lists = _lists(ask(query, key), fields, row) if query else {}
    written = MappingProxyType(_texts(texts) if texts else {})
    return KINDS[kind](
        id=part_id, kind=kind, origin=origin, written=written, **shared, **values, **lists
    )


def _texts(written: str) -> dict[str, str]:
    """The texts of a JSON object of texts; what else it may be is not read."""
    found = {}
    place = written.find('"')
    while place >= 0:
        name, place = scanstring(written, place + 1)
        found[name], place = scanstring(written, written.index('"', place) + 1)
        place = written.find('"', place)
    return found


def _lists(
    found: list[tuple[Any, ...]], fields: tuple[tuple[Field[Any], int], ...], row: Mapping[str, Any]
) -> dict[str, Any]:
    """The list fields of a part."""
    of: dict[str, list[tuple[Any, ...]]] = {field.name: [] for field, _ in fields}
    # Sorted by list and position; SQLite sorts slower than that.
    for name, _, *cells in sorted(found, key=_in_order):
        of[name].append(tuple(cells))
    lists = {}
    for field, count in fields:
        rows = [cells[:count] for cells in of[field.name]]
        lists[field.name] = list_of(field, rows, row)
    return lists
