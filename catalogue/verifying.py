"""Looks a catalogue file over: pages, constraints, layout, every revision, every part of now.

Reads only, but for the index of words, which checks itself in a transaction that is taken back.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final, NamedTuple

from catalogue.changes import now
from catalogue.checks import problems_of
from catalogue.errors import CatalogueError, meaning
from catalogue.history import Revision
from catalogue.layout import LISTS
from catalogue.parts import KINDS
from catalogue.revisions import canonical, digest
from catalogue.store import GENERIC, PATIENCE, Store, file_uri

#: Damage that is listed, of each sort; nobody mends more in one go.
_MOST: Final = 20


class Verified(NamedTuple):
    """What was looked over, and what is wrong, a sentence each."""

    parts: int
    revisions: int
    changes: int
    problems: tuple[str, ...]


def verify(path: str) -> Verified:
    """Look the catalogue at `path` over. Raises CatalogueError if it cannot be opened at all."""
    store = Store(path, "shop")
    try:
        problems = list(_some(_pages(store)))
        if not problems:
            for sort in (_layout, _rows, _revisions, _parts, _successors, _words):
                problems.extend(_some(sort(store)))
        parts, revisions, changes = (_count(store, name) for name in ("part", "revision", "change"))
    finally:
        store.close()
    return Verified(parts, revisions, changes, tuple(problems))


def _count(store: Store, table: str) -> int:
    try:
        return int(store.ask(f"SELECT count(*) FROM {table}")[0][0])
    except CatalogueError:
        return 0


def _some(found: Iterator[str]) -> Iterator[str]:
    """The first of many sentences; one that cannot be had is one of them."""
    try:
        for number, each in enumerate(found):
            if number == _MOST:
                yield "and more of the same"
                return
            yield each
    except CatalogueError as error:
        yield str(error)


def _pages(store: Store) -> Iterator[str]:
    for (line,) in store.ask(f"PRAGMA integrity_check({_MOST})"):
        if line != "ok":
            yield f"the file is damaged: {line}"


def _layout(store: Store) -> Iterator[str]:
    """Tables, triggers and views are those that this layout has, and no other."""
    from sqlite_utils import Database

    from catalogue.migrations import migrate

    query = "SELECT name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite_%'"
    connection = sqlite3.connect(":memory:", isolation_level=None)
    try:
        migrate(Database(connection))
        due = dict(connection.execute(query).fetchall())
    finally:
        connection.close()
    found = dict(store.ask(query))
    for name in sorted(due.keys() | found.keys()):
        if name not in found:
            yield f"{name!r} is missing from the layout"
        elif name in due and found[name] != due[name]:
            yield f"{name!r} is not laid out as it should be"


def _rows(store: Store) -> Iterator[str]:
    """Every row belongs to a part, and every part has one row of its kind."""
    for table, row, parent, _ in store.ask("PRAGMA foreign_key_check"):
        yield f"row {row} of {table} belongs to no {parent}"
    for kind in KINDS:
        strangers = f"SELECT id FROM {kind} JOIN part USING (key) WHERE kind <> ?"
        for (part_id,) in store.ask(strangers, kind):
            yield f"{part_id!r} has a row in table {kind}, and is none"
    for table in dict.fromkeys(LISTS.values()):
        gaps = (
            f"SELECT id FROM {table} JOIN part ON key = part_key GROUP BY key"
            + (", side" if table == "curve_point" else "")
            + " HAVING max(position) + 1 <> count(*)"
        )
        for (part_id,) in store.ask(gaps):
            yield f"{part_id!r} lacks rows in table {table}"


_EVERY: Final = (
    "SELECT part_id, revision.number, changed_at, changed_by, why, revision.status, sha256, body, "
    "document, page FROM revision JOIN change ON change.number = revision.change "
    "ORDER BY part_id, revision.number"
)


def _revisions(store: Store) -> Iterator[str]:
    """Each revision is what was written then, and none is missing."""
    expected: dict[str, int] = {}
    latest = now()
    for row in store.stream(_EVERY):
        found, about = Revision(*row[:8]), row[8:]
        name = f"revision {found.number} of {found.part_id!r}"
        due = expected.get(found.part_id, 0) + 1
        if found.number != due:
            yield f"{name}: revision {due} is missing"
        expected[found.part_id] = found.number
        if found.at > latest:
            yield f"{name} is dated {found.at}, which is yet to come"
        if found.body is not None:
            yield from _one_revision(found, about, name)
    loose = "SELECT number FROM change WHERE number NOT IN (SELECT change FROM revision)"
    for (number,) in store.ask(loose):
        yield f"change {number} has no revisions"


def _one_revision(found: Revision, about: tuple[Any, ...], name: str) -> Iterator[str]:
    if digest(found.body or "") != found.sha256:
        yield f"{name} is not what was written: its SHA-256 does not fit"
        return
    part = found.part
    if part is None or part.id != found.part_id:
        yield f"{name} is of another part"
    elif (part.status, part.document, part.page) != (found.status, *about):
        yield f"{name}: status, document or page beside it are not those in it"


def _parts(store: Store) -> Iterator[str]:
    """The part of now is what its last revision says, and is a part at all."""
    last: dict[str, str | None] = {
        part_id: sha256
        for part_id, _, sha256 in store.ask(
            "SELECT part_id, max(number), sha256 FROM revision GROUP BY part_id"
        )
    }
    for part_id in store.ids():
        part = store.get(part_id)
        sha256 = last.pop(part_id, None)
        if part is None or sha256 is None:
            yield f"{part_id!r} has no revision"
        elif digest(canonical(part)) != sha256:
            yield f"{part_id!r} is not what its last revision says"
        else:
            yield from (f"{part_id!r}: {each.what}" for each in problems_of(part))
    for part_id, sha256 in last.items():
        if sha256 is not None:
            yield f"{part_id!r} is missing, though its last revision does not say so"


def _successors(store: Store) -> Iterator[str]:
    following = dict(store.ask("SELECT id, successor FROM part WHERE successor IS NOT NULL"))
    generic = Store(GENERIC, "generic")
    try:
        for part_id, step in following.items():
            if not store.has(step) and not generic.has(step):
                yield f"{part_id!r} has the successor {step!r}, which is no part"
            seen = [part_id]
            while step in following and step not in seen:
                seen.append(step)
                step = following[step]
            if step in seen:
                yield f"{part_id!r}: its successors go round"
    finally:
        generic.close()


def _words(store: Store) -> Iterator[str]:
    """Every index of words is in step with its parts; it says so itself, to a writer only."""
    query = "SELECT name FROM sqlite_master WHERE sql LIKE 'CREATE VIRTUAL TABLE%fts5%'"
    indexes = store.ask(query)
    if not indexes:
        return
    path = Path(store.path)
    connection = sqlite3.connect(
        f"{file_uri(str(path))}?mode=rw", uri=True, timeout=PATIENCE, isolation_level=None
    )
    try:
        for (name,) in indexes:
            connection.execute("BEGIN")
            try:
                connection.execute(f"INSERT INTO {name}({name}, rank) VALUES('integrity-check', 1)")
            except sqlite3.DatabaseError as error:
                if "readonly" in str(error):
                    return
                if "locked" in str(error):
                    yield meaning(error, store.path, "read")
                else:
                    yield f"the index {name!r} is not in step with the parts"
            finally:
                connection.execute("ROLLBACK")
    except sqlite3.Error as error:
        yield meaning(error, store.path, "read")
    finally:
        connection.close()
