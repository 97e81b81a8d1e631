"""Draft, reviewed by a second name, retired: what a part's status may become, and by whom."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from catalogue.changes import same_name
from catalogue.errors import CatalogueError
from catalogue.parts import Part
from catalogue.revisions import digest_of
from catalogue.store import GENERIC, Store

if TYPE_CHECKING:
    from sqlite_utils import Database


def refuse_unvouched(db: Database, parts: Iterable[Part], by: str) -> None:
    """Parts that come in as reviewed need a second name, unless they are here so already.

    A sheet may bring a review along, with `reviewed_by`; it counts if somebody else brings it.
    Generic parts, taken over as they are, count as reviewed where the generic catalogue says so.
    Raises CatalogueError naming the parts.
    """
    claimed = [part for part in parts if part.status == "reviewed"]
    doubtful = [
        part
        for part in claimed
        if part.reviewed_by is None or same_name(part.reviewed_by, by)
    ]
    if not doubtful:
        return
    known = _known(db, [part.id for part in doubtful])
    refused = [part.id for part in doubtful if digest_of(part) not in known]
    if refused:
        from catalogue.shop import several

        raise CatalogueError(
            f"{several(refused)}: status 'reviewed' wants a second name, other than {by!r}, in "
            "reviewed_by; enter a draft, then: fusewright parts review ID --by NAME"
        )


def _known(db: Database, ids: list[str]) -> set[str]:
    """Digests of parts of these ids as they are in the file, and as generic parts."""
    known = set()
    for part_id in ids:
        found = db.execute(
            "SELECT sha256 FROM revision WHERE part_id = ? ORDER BY number DESC LIMIT 1", [part_id]
        ).fetchone()
        known.add(found[0] if found else None)
    generic = Store(GENERIC, "generic")
    try:
        parts = (generic.get(part_id) for part_id in ids)
        known.update(digest_of(part) for part in parts if part is not None)
    finally:
        generic.close()
    return {each for each in known if each}
