"""Puts parts into a catalogue, or takes them out: rows of now and a revision, in one transaction.

Parts may be many: they are taken in portions, and every portion goes table by table.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import Field
from functools import cache
from operator import attrgetter
from typing import TYPE_CHECKING, Any, Final

from catalogue.changes import Change, Saved
from catalogue.errors import CatalogueError
from catalogue.finding.tables import COME, GO
from catalogue.layout import (
    LISTS,
    SHARED,
    columns_of,
    columns_with_values,
    described,
    list_columns,
    rows_of,
)
from catalogue.parts import Part
from catalogue.revisions import canonical, digest
from catalogue.writing import transaction

if TYPE_CHECKING:
    from sqlite_utils import Database

_PORTION: Final = 2000
_ENCODE: Final = json.JSONEncoder(ensure_ascii=False, separators=(",", ":")).encode


def save(db: Database, parts: Iterable[Part], change: Change | None) -> Saved:
    """Put parts in, each in place of one of the same id; all or none.

    change -- whose change it is; None: the file keeps no history (the generic one)
    Raises sqlite3 errors.
    """
    with transaction(db):
        return put(db, parts, change)


def put(db: Database, parts: Iterable[Part], change: Change | None) -> Saved:
    """`save` inside the caller's transaction. A part that is there as it is makes no revision."""
    writer = _Writer(db, change)
    for portion in _portions(parts):
        writer.put(portion)
    return Saved(writer.added, writer.changed, writer.unchanged)


def take_out(db: Database, ids: Iterable[str], change: Change) -> None:
    """Remove parts inside the caller's transaction; their history stays and says so.

    Raises CatalogueError for an id that the file does not have.
    """
    writer = _Writer(db, change)
    for part_id in ids:
        writer.take_out(part_id)


def _portions(parts: Iterable[Part]) -> Iterator[dict[str, Part]]:
    """Some parts by id; one that comes twice is in two portions, for its second state counts."""
    portion: dict[str, Part] = {}
    for part in parts:
        if len(portion) >= _PORTION or part.id in portion:
            yield portion
            portion = {}
        portion[part.id] = part
    if portion:
        yield portion


class _Writer:
    """One transaction's rows; the change itself is written with the first that differs."""

    def __init__(self, db: Database, change: Change | None) -> None:
        self._run, self._many = db.conn.execute, db.conn.executemany
        self._change, self._number = change, 0
        self.added = self.changed = self.unchanged = 0
        (self._key,) = self._run("SELECT coalesce(max(key), 0) FROM part").fetchone()

    def put(self, portion: Mapping[str, Part]) -> None:
        ids = _ENCODE(list(portion))
        within = "IN (SELECT value FROM json_each(?))"
        keys = dict(self._run(f"SELECT id, key FROM part WHERE id {within}", (ids,)))
        last = {
            part_id: (number, sha256)
            for part_id, number, sha256 in self._run(
                "SELECT part_id, max(number), sha256 FROM revision "
                f"WHERE part_id {within} GROUP BY part_id",
                (ids,),
            )
        }
        rows = _Rows()
        for part_id, part in portion.items():
            text = canonical(part)
            sha256, (number, before) = digest(text), last.get(part_id, (0, None))
            if part_id in keys and before == sha256:
                self.unchanged += 1
                continue
            if self._change is not None:
                where = (part.status, part.document, part.page)
                rows.revisions.append((part_id, number + 1, self._current(), *where, text, sha256))
            if part_id in keys:
                rows.gone.append((keys[part_id],))
                self.changed += 1
            else:
                self._key += 1
                self.added += 1
            rows.add(part, keys.get(part_id, self._key))
        rows.write(self._many)

    def take_out(self, part_id: str) -> None:
        found = self._run("SELECT key FROM part WHERE id = ?", (part_id,)).fetchone()
        if found is None:
            raise CatalogueError(f"there is no part {part_id!r} to remove")
        self._run(GO, found)
        self._run("DELETE FROM part WHERE key = ?", found)
        self._run(
            "INSERT INTO revision (part_id, number, change, status) VALUES (?1, 1 + (SELECT "
            "coalesce(max(number), 0) FROM revision WHERE part_id = ?1), ?2, 'removed')",
            (part_id, self._current()),
        )

    def _current(self) -> int:
        """The number of the change, which is written when it is first asked for."""
        if self._number == 0 and self._change is not None:
            by, why, at = self._change
            row = self._run(
                "INSERT INTO change (changed_at, changed_by, why) VALUES (?, ?, ?)", (at, by, why)
            )
            self._number = row.lastrowid or 0
        return self._number


class _Rows:
    """Rows of several parts, by table."""

    def __init__(self) -> None:
        self.gone: list[tuple[int]] = []
        self.parts: list[tuple[Any, ...]] = []
        self.words: list[tuple[Any, ...]] = []
        self.revisions: list[tuple[Any, ...]] = []
        self.kinds: dict[str, list[tuple[Any, ...]]] = defaultdict(list)
        self.lists: dict[str, list[tuple[Any, ...]]] = defaultdict(list)

    def add(self, part: Part, key: int) -> None:
        kind = part.kind
        texts = _ENCODE(dict(part.written)) if part.written else None
        self.parts.append((key, part.id, kind, texts, *_SHARED_OF(part)))
        family = getattr(part, "family", None)
        self.words.append((key, part.id, kind, family, part.description, part.document))
        row: list[Any] = [key]
        values_of, fields = _plan(kind)
        for value, (field, nothing, table) in zip(values_of(part), fields, strict=True):
            if nothing is None:
                row.append(value)
            elif value is None:
                row += nothing
            else:
                row += columns_with_values(field, part).values()
            if table and value:
                found = self.lists[table]
                found.extend((key, *each.values()) for each in rows_of(field, part))
        self.kinds[kind].append(tuple(row))

    def write(self, many: Any) -> None:
        many(GO, self.gone)
        many("DELETE FROM part WHERE key = ?", self.gone)
        many(_insert("part", "key", "id", "kind", "written", *SHARED), self.parts)
        for kind, rows in self.kinds.items():
            columns = (name for field, _ in _own(kind) for name in columns_of(field))
            many(_insert(kind, "key", *columns), rows)
        for table, rows in self.lists.items():
            many(_insert(table, "part_key", "position", *_LIST_COLUMNS[table]), rows)
        many(COME, self.words)
        many(_REVISION, self.revisions)


@cache
def _own(kind: str) -> tuple[tuple[Field[Any], bool], ...]:
    """The fields in a kind's table, and whether each is a single column with the value itself."""
    return tuple(
        (field, columns_of(field) == (field.name,))
        for field in described(kind)
        if field.name not in SHARED
    )


@cache
def _plan(kind: str) -> tuple[Any, tuple[tuple[Field[Any], list[None] | None, str], ...]]:
    """What gives the values of the fields in a kind's table; and of each the field, what its
    columns hold if nothing is stated (None: one column, the value itself), and its list's table.
    """
    own = _own(kind)
    names = (field.name for field, _ in own)
    return attrgetter(*names), tuple(
        (field, None if single else [None] * len(columns_of(field)), LISTS.get(field.name, ""))
        for field, single in own
    )


_SHARED_OF: Final = attrgetter(*SHARED)
_LIST_COLUMNS: Final = {
    LISTS[field.name]: list_columns(field)
    for kind in ("fuse", "disconnect")
    for field in described(kind)
    if field.name in LISTS
}


def _insert(table: str, *columns: str) -> str:
    return f"INSERT INTO {table} ({', '.join(columns)}) VALUES ({', '.join('?' * len(columns))})"


_REVISION: Final = _insert(
    "revision", "part_id", "number", "change", "status", "document", "page", "body", "sha256"
)
