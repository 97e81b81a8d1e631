"""Brings what another catalogue holds into the shop's own: one transaction, nothing decided alone.

A part that only the other has is taken with all its revisions, by whom and when they were made.
One that states the same in both stays. Where they differ, or one of them has taken the part out,
somebody has to say whose counts; until all of that is said, nothing is written.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from catalogue.changes import Change, change_by
from catalogue.errors import CatalogueError
from catalogue.near_miss import hint_of
from catalogue.parts import Part
from catalogue.reviews import refuse_lost_successors
from catalogue.revisions import digest, part_of
from catalogue.saving import put, take_out
from catalogue.sheets.changes import FieldChange, differences
from catalogue.shop import own_path
from catalogue.store import Store
from catalogue.writing import open_for_change, transaction

if TYPE_CHECKING:
    from sqlite_utils import Database

OURS: Final = "ours"
THEIRS: Final = "theirs"
#: Stands for every part that is in conflict.
EVERY: Final = "*"

#: Id -> SHA-256 of the state it is in; None: taken out.
_LAST: Final = (
    "SELECT part_id, sha256 FROM revision AS one WHERE number = "
    "(SELECT max(number) FROM revision WHERE part_id = one.part_id)"
)


class Conflict(NamedTuple):
    """One part that the two catalogues do not agree on; None for the side that took it out.

    known -- "theirs goes on from ours", or the other way round, where the history tells
    """

    part_id: str
    ours: Part | None
    theirs: Part | None
    known: str
    fields: tuple[FieldChange, ...]


class Merge(NamedTuple):
    """What a merge finds: ids that only the other has, how many are the same, and conflicts."""

    only_there: tuple[str, ...]
    same: int
    conflicts: tuple[Conflict, ...]


def compare(path: str | None, other: str) -> Merge:
    """What merging `other` into the shop's catalogue would find; nothing is written.

    Raises CatalogueError: no catalogue named, one that cannot be read, or the same file twice.
    """
    own = own_path(path)
    theirs = _other(own, other)
    try:
        if not os.path.exists(own):
            return Merge(tuple(theirs.ids()), 0, ())
        ours = Store(own, "shop")
        try:
            return _compared(ours, theirs)
        finally:
            ours.close()
    finally:
        theirs.close()


def merge(
    path: str | None,
    other: str,
    take: Mapping[str, str],
    by: str | None = None,
    why: str | None = None,
) -> Merge:
    """Merge `other` into the shop's catalogue, all or nothing; gives what was found.

    take -- id of a part in conflict (or EVERY) to OURS or THEIRS
    Raises CatalogueError; where conflicts are left undecided, `Undecided`.
    """
    own, change = own_path(path), change_by(by, why)
    theirs = _other(own, other)
    try:
        with open_for_change(Path(own)) as db, transaction(db):
            # Nobody else writes from here on: what is compared is what is merged.
            ours = Store(own, "shop")
            try:
                found = _compared(ours, theirs)
            finally:
                ours.close()
            chosen = _chosen(found, take)
            _take_new(db, theirs, found.only_there)
            _take_theirs(db, theirs, chosen, change, other)
            refuse_lost_successors(db)
        return found
    finally:
        theirs.close()


class Undecided(CatalogueError):  # noqa: N818 -- nothing is wrong, a choice is open
    """Conflicts that nobody has decided; nothing was written."""

    def __init__(self, found: Merge, left: tuple[Conflict, ...]) -> None:
        count = f"{len(left)} conflict{'' if len(left) == 1 else 's'}"
        super().__init__(
            f"{count} to decide; nothing was written: --take theirs=ID or --take ours=ID"
        )
        self.found, self.left = found, left


def _other(own: str, other: str) -> Store:
    if os.path.exists(own) and os.path.exists(other) and os.path.samefile(own, other):
        raise CatalogueError(f"{other!r} is the shop's catalogue itself")
    return Store(other, "shop")


def _compared(ours: Store, theirs: Store) -> Merge:
    mine = dict(ours.ask(_LAST))
    only: list[str] = []
    conflicts: list[Conflict] = []
    same = 0
    for part_id, sha256 in sorted(theirs.ask(_LAST)):
        if part_id not in mine:
            # What they took out and we never had is their history alone.
            only += [part_id] if sha256 is not None else []
        elif mine[part_id] == sha256:
            same += 1
        else:
            conflicts.append(_conflict(ours, theirs, part_id, mine[part_id], sha256))
    return Merge(tuple(only), same, tuple(conflicts))


def _conflict(
    ours: Store, theirs: Store, part_id: str, mine: str | None, other: str | None
) -> Conflict:
    here, there = ours.get(part_id), theirs.get(part_id)
    fields = differences(here, there) if here is not None and there is not None else ()
    known = ""
    if mine in _states(theirs, part_id):
        known = "theirs goes on from ours"
    elif other in _states(ours, part_id):
        known = "ours goes on from theirs"
    return Conflict(part_id, here, there, known, fields)


def _states(store: Store, part_id: str) -> set[str | None]:
    """Every state that a part was in."""
    return {row[0] for row in store.ask("SELECT sha256 FROM revision WHERE part_id = ?", part_id)}


def _chosen(found: Merge, take: Mapping[str, str]) -> tuple[Conflict, ...]:
    """The conflicts of which theirs counts. Raises CatalogueError if any is not decided."""
    ids = [conflict.part_id for conflict in found.conflicts]
    for part_id in take:
        if part_id not in (*ids, EVERY):
            hint = hint_of(part_id, ids) or "only parts in conflict can be decided"
            raise CatalogueError(f"{part_id[:100]!r} is in no conflict; {hint}")
    said = {each: take.get(each, take.get(EVERY, "")) for each in ids}
    left = tuple(each for each in found.conflicts if not said[each.part_id])
    if left:
        raise Undecided(found, left)
    return tuple(each for each in found.conflicts if said[each.part_id] == THEIRS)


def _take_new(db: Database, theirs: Store, ids: Iterable[str]) -> None:
    """Parts that only they have, with their history, each change by whom and when it was made."""
    changes: dict[int, int] = {}
    put(db, _parts(theirs, ids), None)
    for part_id in ids:
        rows = theirs.ask(
            "SELECT revision.number, revision.change, status, document, page, body, sha256, "
            "changed_at, changed_by, why FROM revision JOIN change ON change.number = "
            "revision.change WHERE part_id = ? ORDER BY revision.number", part_id,
        )  # fmt: skip
        for number, change, *state, at, who, why in rows:
            _refuse_altered(part_id, number, state[3], state[4])
            if change not in changes:
                made = db.execute(
                    "INSERT INTO change (changed_at, changed_by, why) VALUES (?, ?, ?)",
                    [at, who, why],
                )
                changes[change] = int(made.lastrowid or 0)
            db.execute(
                "INSERT INTO revision (part_id, number, change, status, document, page, body, "
                "sha256) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
                [part_id, number, changes[change], *state],
            )


def _refuse_altered(part_id: str, number: int, body: str | None, sha256: str | None) -> None:
    if body is not None and digest(body) != sha256:
        what = f"revision {number} of {part_id!r} is not what was written"
        raise CatalogueError(f"{what}: the other catalogue is damaged; nothing was changed")


def _parts(theirs: Store, ids: Iterable[str]) -> Iterator[Part]:
    """Their parts as they are. Raises CatalogueError where a part is not its last revision."""
    for part_id in ids:
        part = theirs.get(part_id)
        last = theirs.ask(
            "SELECT body FROM revision WHERE part_id = ? ORDER BY number DESC LIMIT 1", part_id
        )
        if part is None or not last or part_of(last[0][0]) != part:
            what = f"{part_id!r} is not as its last revision says"
            raise CatalogueError(f"{what}: the other catalogue is damaged; nothing was changed")
        yield part


def _take_theirs(
    db: Database, theirs: Store, chosen: Iterable[Conflict], change: Change, other: str
) -> None:
    """Their state of parts in conflict, each as one more revision of ours."""
    why = change.why or f"merged from {os.path.basename(other)}"
    merged = change._replace(why=why)
    listed = tuple(chosen)
    there = [each.part_id for each in listed if each.theirs is not None]
    put(db, _parts(theirs, there), merged)
    gone = [each.part_id for each in listed if each.theirs is None]
    if gone:
        take_out(db, gone, merged)


def decisions(said: Iterable[str]) -> dict[str, Any]:
    """ "theirs=ID" and "ours=ID" as a mapping. Raises CatalogueError."""
    found: dict[str, Any] = {}
    for text in said:
        whose, sign, part_id = text.partition("=")
        if not sign or whose not in (OURS, THEIRS) or not part_id:
            hint = hint_of(whose, (OURS, THEIRS)) or "write theirs=ID or ours=ID"
            raise CatalogueError(f"--take {text[:60]!r} decides nothing; {hint}")
        if found.setdefault(part_id, whose) != whose:
            raise CatalogueError(f"--take says both theirs and ours of {part_id[:100]!r}")
    return found
