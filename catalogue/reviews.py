"""Draft, reviewed by a second name, retired, removed: what becomes of a part, and by whom."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from catalogue.changes import Change, same_name
from catalogue.errors import CatalogueError
from catalogue.parts import Part
from catalogue.revisions import digest_of
from catalogue.rows import part_from
from catalogue.saving import put, take_out
from catalogue.store import GENERIC, Store
from catalogue.writing import open_for_change, quiet, transaction

if TYPE_CHECKING:
    from sqlite_utils import Database

Tell = Callable[[str], None]


def review(path: str, part_id: str, change: Change, tell: Tell = quiet) -> Part:
    """Mark a part's figures as held against their document; the part as it is then.

    Raises CatalogueError: no such part, it is retired or reviewed already, or whoever reviews
    entered something of what was not reviewed yet.
    """
    with open_for_change(Path(path), tell=tell) as db, transaction(db):
        part = _own_part(db, path, part_id)
        if part.status == "retired":
            raise CatalogueError(f"{part_id!r} is retired; there is nothing to review")
        if part.status == "reviewed":
            raise CatalogueError(f"{part_id!r} is reviewed already, by {part.reviewed_by or '?'}")
        for author in _authors(db, part_id):
            if same_name(author, change.by):
                raise CatalogueError(
                    f"{author!r} entered figures of {part_id!r}; a second name reviews them: "
                    "--by NAME"
                )
        day = change.at.partition("T")[0]
        made = replace(part, status="reviewed", reviewed=day, reviewed_by=change.by)
        put(db, [made], change)
    return made


def _authors(db: Database, part_id: str) -> list[str]:
    """Who made the revisions since the last that was reviewed."""
    rows = db.execute(
        "SELECT changed_by FROM revision JOIN change ON change.number = revision.change "
        "WHERE part_id = ?1 AND revision.number > (SELECT coalesce(max(number), 0) "
        "FROM revision WHERE part_id = ?1 AND status = 'reviewed') ORDER BY revision.number DESC",
        [part_id],
    )
    return [row[0] for row in rows]


def retire(
    path: str, part_id: str, successor: str | None, change: Change, tell: Tell = quiet
) -> Part:
    """Mark a part as not to be used any more; the part as it is then.

    successor -- the part that takes its place; None: there is none
    Raises CatalogueError: no such part, no reason, the successor is unknown or leads back.
    """
    if change.why is None:
        raise CatalogueError(f"why is {part_id!r} retired? Say it with --why")
    with open_for_change(Path(path), tell=tell) as db, transaction(db):
        part = _own_part(db, path, part_id)
        made = replace(part, status="retired", successor=successor)
        put(db, [made], change)
        refuse_lost_successors(db)
    return made


def remove(path: str, part_id: str, change: Change, tell: Tell = quiet) -> None:
    """Take a part out of the catalogue; its history stays.

    Raises CatalogueError: no such part, no reason, another names it as its successor.
    """
    if change.why is None:
        raise CatalogueError(f"why is {part_id!r} removed? Say it with --why")
    with open_for_change(Path(path), tell=tell) as db, transaction(db):
        _own_part(db, path, part_id)
        found = db.execute("SELECT id FROM part WHERE successor = ?", [part_id]).fetchone()
        if found and not _is_generic(part_id):
            raise CatalogueError(f"{part_id!r} is the successor of {found[0]!r}; change that first")
        take_out(db, [part_id], change)


def _own_part(db: Database, path: str, part_id: str) -> Part:
    """The part in the shop's own file. Raises CatalogueError."""

    def ask(query: str, *values: Any) -> list[tuple[Any, ...]]:
        rows: list[tuple[Any, ...]] = db.conn.execute(query, values).fetchall()
        return rows

    found = part_from(ask, part_id, "shop", path)
    if found is not None:
        return found
    if _is_generic(part_id):
        raise CatalogueError(f"{part_id!r} is generic and stays as it is; add a part of your own")
    from catalogue.near_miss import hint_of

    hint = hint_of(part_id, [row[0] for row in ask("SELECT id FROM part")])
    raise CatalogueError(
        f"there is no part {part_id[:100]!r} in {path!r}" + (f"; {hint}" if hint else "")
    )


def refuse_lost_successors(db: Database) -> None:
    """Successors must be there, and none may lead back to its part. Raises CatalogueError.

    Called after the parts are in, inside their transaction.
    """
    named = db.execute("SELECT id, successor FROM part WHERE successor IS NOT NULL").fetchall()
    for part_id, successor in named:
        seen, step = [part_id], successor
        while step is not None:
            if step in seen:
                raise CatalogueError(f"successors go round: {' -> '.join([*seen, step])}")
            seen.append(step)
            row = db.execute("SELECT successor FROM part WHERE id = ?", [step]).fetchone()
            if row is None and not _is_generic(step):
                raise CatalogueError(f"{seen[-2]!r} has the successor {step!r}, which is no part")
            step = row[0] if row else None


def _is_generic(part_id: str) -> bool:
    store = Store(GENERIC, "generic")
    try:
        return store.has(part_id)
    finally:
        store.close()


def refuse_unvouched(db: Database, parts: Iterable[Part], by: str) -> None:
    """Parts that come in as reviewed need a second name, and figures that this name has seen.

    A sheet may bring the review of a part along that is new to the file, with `reviewed_by`; it
    counts if somebody else brings it. A part that is in the file counts as reviewed in a state
    that it had already, a generic part as it is in the generic catalogue.
    Called before the parts are put in. Raises CatalogueError naming the parts.
    """
    refused = [part.id for part in parts if part.status == "reviewed" and _doubtful(db, part, by)]
    if refused:
        from catalogue.shop import several

        raise CatalogueError(
            f"{several(refused)}: status 'reviewed' wants a second name, other than {by!r}, that "
            "saw these figures; enter a draft, then: fusewright parts review ID --by NAME"
        )


def _doubtful(db: Database, part: Part, by: str) -> bool:
    states = db.execute("SELECT sha256 FROM revision WHERE part_id = ?", [part.id]).fetchall()
    second = part.reviewed_by is not None and not same_name(part.reviewed_by, by)
    if second and not states:
        return False
    own = digest_of(part)
    if own in {state for (state,) in states}:
        return False
    store = Store(GENERIC, "generic")
    try:
        generic = store.get(part.id)
    finally:
        store.close()
    return generic is None or digest_of(generic) != own
