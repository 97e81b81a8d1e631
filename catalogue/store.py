"""Reads parts from catalogue files: the generic one shipped here, and a shop's own over it.

Standard library only, read-only, one part at a time; `writing` makes and changes files.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from typing import Any, Final

from catalogue.errors import CatalogueError, meaning
from catalogue.parts import Part
from catalogue.rows import part_from

GENERIC: Final = os.path.join(os.path.dirname(__file__), "generic", "generic.sqlite")
VARIABLE: Final = "FUSEWRIGHT_CATALOGUE"
#: "Fuse" in ASCII: what marks a SQLite file as a catalogue.
APPLICATION_ID: Final = 0x46757365
SCHEMA_VERSION: Final = 4
#: Seconds to wait for somebody else's change to end.
PATIENCE: Final = 2.0


def file_uri(path: str) -> str:
    """The path as SQLite wants it where options follow; whatever bytes it is made of."""
    plain = os.path.abspath(path).replace(os.sep, "/")
    name = plain if plain.startswith("/") else f"/{plain}"
    raw = os.fsencode(name)
    quoted = (chr(b) if 32 < b < 127 and b not in b"%?#" else f"%{b:02x}" for b in raw)
    return "file:" + "".join(quoted)


def _lies_still(path: str) -> bool:
    """Whether a file lies where its readers cannot keep their notes beside it, and is whole.

    SQLite wants to write a small file beside one with a log of changes even for reading.
    """
    folder = os.path.dirname(os.path.abspath(path))
    log = f"{path}-wal"
    return not os.access(folder, os.W_OK) and not (os.path.exists(log) and os.path.getsize(log))


class Store:
    """One catalogue file, open for reading."""

    def __init__(self, path: str, origin: str) -> None:
        """Raises CatalogueError: no file, no database, no catalogue, another version, locked."""
        self.path, self.origin = path, origin
        if "\0" in path or not os.path.isfile(path):
            raise CatalogueError(f"there is no catalogue file {path!r}")
        # The shipped file never changes and may stand where no lock can be made.
        self._connection: sqlite3.Connection | None = None
        try:
            self._open("&immutable=1" if origin == "generic" else "")
        except CatalogueError:
            self.close()
            if origin == "generic" or not _lies_still(path):
                raise
            self._open("&immutable=1")

    def _open(self, more: str) -> None:
        try:
            self._connection = sqlite3.connect(
                f"{file_uri(self.path)}?mode=ro{more}",
                uri=True, timeout=PATIENCE, check_same_thread=False,
            )  # fmt: skip
            self._check_version()
        except (sqlite3.Error, ValueError) as error:
            raise self._refused(error) from error
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
                f"{name!r} was made by an older Fusewright; `fusewright parts upgrade` updates it"
            )

    def _rows(self, query: str, *values: str | float | None) -> list[tuple[Any, ...]]:
        """All rows of a query. Raises CatalogueError."""
        if self._connection is None:
            raise CatalogueError(f"the catalogue {self.path!r} was closed")
        try:
            return self._connection.execute(query, values).fetchall()
        except (sqlite3.Error, UnicodeError) as error:
            raise self._refused(error) from error

    def _refused(self, error: Exception) -> CatalogueError:
        return CatalogueError(meaning(error, self.path, "read"))

    def ask(self, query: str, *values: Any) -> list[tuple[Any, ...]]:
        """All rows of a query that only reads. Raises CatalogueError."""
        return self._rows(query, *values)

    def stream(self, query: str) -> Iterator[tuple[Any, ...]]:
        """The rows of a query one after another, however many. Raises CatalogueError."""
        if self._connection is None:
            raise CatalogueError(f"the catalogue {self.path!r} was closed")
        try:
            yield from self._connection.execute(query)
        except (sqlite3.Error, UnicodeError) as error:
            raise self._refused(error) from error

    def get(self, part_id: str) -> Part | None:
        """The part of that id; None if the file has none."""
        return part_from(self._rows, part_id, self.origin, self.path)

    def ids(self, kind: str | None = None) -> list[str]:
        """Ids in alphabetical order, of one kind or all."""
        if kind is None:
            return [row[0] for row in self._rows("SELECT id FROM part ORDER BY id")]
        query = "SELECT id FROM part WHERE kind = ? ORDER BY id"
        return [row[0] for row in self._rows(query, kind)]

    def revision_of(self, part_id: str) -> tuple[int, str] | None:
        """The number of a part's revision and the SHA-256 of all it states; None if it has none.

        Generic parts have no history: number 0.
        """
        if self.origin == "generic":
            from catalogue.revisions import digest_of

            part = self.get(part_id)
            return None if part is None else (0, digest_of(part))
        query = "SELECT number, sha256 FROM revision WHERE part_id = ? ORDER BY number DESC LIMIT 1"
        found = self._rows(query, part_id)
        return found[0] if found and found[0][1] is not None else None

    def has(self, part_id: str) -> bool:
        """Whether the file holds a part of that id."""
        return bool(self._rows("SELECT 1 FROM part WHERE id = ?", part_id))

    def __enter__(self) -> Store:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

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
        from catalogue.finding.by_id import ids_like
        from catalogue.near_miss import nearest

        return nearest(part_id, ids_like(self, part_id, kind))

    def revision_of(self, part_id: str) -> tuple[int, str] | None:
        """Number and SHA-256 of the part that `get` gives, as `Store.revision_of`."""
        for store in self._stores:
            if store.has(part_id):
                return store.revision_of(part_id)
        return None

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
