"""Reads parts from catalogue files: the generic one shipped here, and a shop's own over it.

Standard library only, read-only, one part at a time; `writing` makes and changes files.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator, Mapping
from dataclasses import Field
from functools import cache
from types import MappingProxyType
from typing import Any, Final

from catalogue.errors import CatalogueError
from catalogue.layout import LISTS, SHARED, columns_of, described, list_columns, list_of, value_of
from catalogue.parts import KINDS, Part

GENERIC: Final = os.path.join(os.path.dirname(__file__), "generic", "generic.sqlite")
VARIABLE: Final = "FUSEWRIGHT_CATALOGUE"
#: "Fuse" in ASCII: what marks a SQLite file as a catalogue.
APPLICATION_ID: Final = 0x46757365
SCHEMA_VERSION: Final = 2
#: Seconds to wait for somebody else's change to end.
PATIENCE: Final = 2.0


def _uri(path: str) -> str:
    """The path as SQLite wants it where options follow; whatever bytes it is made of."""
    plain = os.path.abspath(path).replace(os.sep, "/")
    name = plain if plain.startswith("/") else f"/{plain}"
    raw = os.fsencode(name)
    quoted = (chr(b) if 32 < b < 127 and b not in b"%?#" else f"%{b:02x}" for b in raw)
    return "file:" + "".join(quoted)


@cache
def _own_query(kind: str) -> tuple[str, tuple[str, ...], tuple[Field[Any], ...]]:
    """The query for a part's row in the table of its kind, the columns it gives, and the fields
    that stand in them alone.
    """
    own = tuple(field for field in described(kind) if field.name not in SHARED)
    names = tuple(column for field in own for column in columns_of(field))
    single = tuple(field for field in own if field.name not in LISTS)
    return f"SELECT {', '.join(names)} FROM {kind} WHERE id = ?", names, single


@cache
def _list_query(kind: str) -> tuple[str, tuple[tuple[Field[Any], int], ...]]:
    """One query for all lists of a part: (list, position, up to three cells); and the fields,
    each with how many cells its rows have.
    """
    fields = tuple(field for field in described(kind) if field.name in LISTS)
    selects = ["SELECT 'written', 0, field, text, NULL FROM written WHERE part_id = ?1"]
    for field in fields:
        cells = ", ".join((*list_columns(field), "NULL")[:3])
        table = LISTS[field.name]
        selects.append(f"SELECT '{field.name}', position, {cells} FROM {table} WHERE part_id = ?1")
    return " UNION ALL ".join(selects), tuple((each, len(list_columns(each))) for each in fields)


def _in_order(row: tuple[Any, ...]) -> tuple[str, int]:
    return row[0], row[1]


class Store:
    """One catalogue file, open for reading."""

    def __init__(self, path: str, origin: str) -> None:
        """Raises CatalogueError: no file, no database, no catalogue, another version, locked."""
        self.path, self.origin = path, origin
        if "\0" in path or not os.path.isfile(path):
            raise CatalogueError(f"there is no catalogue file {path!r}")
        # The shipped file never changes and may stand where no lock can be made.
        mode = "mode=ro&immutable=1" if origin == "generic" else "mode=ro"
        self._connection: sqlite3.Connection | None = None
        try:
            self._connection = sqlite3.connect(
                f"{_uri(path)}?{mode}", uri=True, timeout=PATIENCE, check_same_thread=False
            )
        except (sqlite3.Error, ValueError) as error:
            raise self._refused(error) from error
        try:
            self._check_version()
        except CatalogueError:
            self.close()
            raise

    def _check_version(self) -> None:
        self._rows("PRAGMA trusted_schema = OFF")
        ((application,),) = self._rows("PRAGMA application_id")
        ((version,),) = self._rows("PRAGMA user_version")
        name = self.path
        if application != APPLICATION_ID:
            raise CatalogueError(f"{name!r} is a database, but no parts catalogue")
        if version > SCHEMA_VERSION:
            raise CatalogueError(f"{name!r} was made by a newer Fusewright; update this one")
        if version < SCHEMA_VERSION:
            raise CatalogueError(
                f"{name!r} was made by an older Fusewright; any `fusewright parts add` updates it"
            )

    def _rows(self, query: str, *values: str) -> list[tuple[Any, ...]]:
        """All rows of a query. Raises CatalogueError."""
        if self._connection is None:
            raise CatalogueError(f"the catalogue {self.path!r} was closed")
        try:
            return self._connection.execute(query, values).fetchall()
        except (sqlite3.Error, UnicodeError) as error:
            raise self._refused(error) from error

    def _refused(self, error: Exception) -> CatalogueError:
        """What an error of SQLite means to the user."""
        name, text = self.path, str(error)
        if "locked" in text or "busy" in text:
            return CatalogueError(f"{name!r} is being changed by another program; try again")
        if "not a database" in text:
            return CatalogueError(f"{name!r} is not a database")
        return CatalogueError(f"{name!r} cannot be read: {text}")

    def get(self, part_id: str) -> Part | None:
        """The part of that id; None if the file has none."""
        found = self._rows(f"SELECT kind, {', '.join(SHARED)} FROM part WHERE id = ?", part_id)
        if not found:
            return None
        kind, shared = found[0][0], dict(zip(SHARED, found[0][1:], strict=True))
        if kind not in KINDS:
            raise CatalogueError(f"{part_id!r} in {self.path!r} is of unknown kind {kind!r}")
        query, names, single = _own_query(kind)
        rows = self._rows(query, part_id)
        if not rows:
            raise CatalogueError(f"{part_id!r} in {self.path!r} has no row in table {kind}")
        row = dict(zip(names, rows[0], strict=True))
        values = {field.name: value_of(field, row) for field in single}
        lists, written = self._lists(kind, part_id, row)
        return KINDS[kind](
            id=part_id, kind=kind, origin=self.origin, written=written, **shared, **values, **lists
        )

    def _lists(
        self, kind: str, part_id: str, row: Mapping[str, Any]
    ) -> tuple[dict[str, Any], Mapping[str, str]]:
        """The list fields of a part, and its texts as written."""
        query, fields = _list_query(kind)
        of: dict[str, list[tuple[Any, ...]]] = {field.name: [] for field, _ in fields}
        written = {}
        # Sorted by list and position; SQLite sorts slower than that.
        for name, _, *cells in sorted(self._rows(query, part_id), key=_in_order):
            if name == "written":
                written[cells[0]] = cells[1]
            else:
                of[name].append(tuple(cells))
        lists = {}
        for field, count in fields:
            found = [cells[:count] for cells in of[field.name]]
            lists[field.name] = list_of(field, found, row)
        return lists, MappingProxyType(written)

    def ids(self, kind: str | None = None) -> list[str]:
        """Ids in alphabetical order, of one kind or all."""
        if kind is None:
            return [row[0] for row in self._rows("SELECT id FROM part ORDER BY id")]
        query = "SELECT id FROM part WHERE kind = ? ORDER BY id"
        return [row[0] for row in self._rows(query, kind)]

    def has(self, part_id: str) -> bool:
        """Whether the file holds a part of that id."""
        return bool(self._rows("SELECT 1 FROM part WHERE id = ?", part_id))

    def close(self) -> None:
        """Let go of the file; closing twice is fine."""
        if self._connection is not None:
            self._connection.close()
            self._connection = None


class Catalogue:
    """The parts at hand: a shop's own, where there are any, before the generic ones."""

    def __init__(self, generic: Store, shop: Store | None = None) -> None:
        self.generic, self.shop = generic, shop
        self._stores = (generic,) if shop is None else (shop, generic)

    def get(self, part_id: str) -> Part | None:
        """The part of that id, the shop's before the generic one. Raises CatalogueError."""
        for store in self._stores:
            part = store.get(part_id)
            if part is not None:
                return part
        return None

    def ids(self, kind: str | None = None) -> Iterator[str]:
        """Every id, of one kind or all, in alphabetical order; each once."""
        if self.shop is None:
            return iter(self.generic.ids(kind))
        mine = set(self.shop.ids())
        below = [part_id for part_id in self.generic.ids(kind) if part_id not in mine]
        return iter(sorted([*self.shop.ids(kind), *below]))

    def near(self, part_id: str, kind: str | None = None) -> str:
        """The id of that kind most like `part_id`; empty if none is near."""
        from catalogue.near_miss import nearest

        return nearest(part_id, self.ids(kind))

    def shadowed(self, part_id: str) -> bool:
        """Whether a part of the shop hides a generic one."""
        return self.shop is not None and self.shop.has(part_id) and self.generic.has(part_id)

    def describe(self) -> str:
        """Where the parts come from, in words."""
        if self.shop is None:
            return "the generic parts"
        return f"{self.shop.path} before the generic parts"

    def close(self) -> None:
        """Let go of the files; closing twice is fine."""
        for store in self._stores:
            store.close()

    def __enter__(self) -> Catalogue:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def __del__(self) -> None:
        if hasattr(self, "_stores"):
            self.close()


def shop_path(path: str | None) -> str | None:
    """Where the shop's catalogue is: the argument, else FUSEWRIGHT_CATALOGUE, else nowhere."""
    named = path or os.environ.get(VARIABLE)
    return os.path.expanduser(named) if named else None


def open_catalogue(path: str | None = None) -> Catalogue:
    """The generic parts, and before them those of the shop's catalogue file, if one is named.

    path -- the shop's file; None: the one named by the variable FUSEWRIGHT_CATALOGUE, if any
    Raises CatalogueError: no such file, no catalogue, made by another version, locked.
    """
    named = shop_path(path)
    generic = Store(GENERIC, "generic")
    try:
        return Catalogue(generic, None if named is None else Store(named, "shop"))
    except CatalogueError:
        generic.close()
        raise
