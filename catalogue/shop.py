"""A shop's own catalogue: what `fusewright parts` does with it. The generic parts never change."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from catalogue.changes import Saved, change_by
from catalogue.checks import problems_of
from catalogue.errors import CatalogueError
from catalogue.parts import Part
from catalogue.reviews import refuse_lost_successors, refuse_unvouched
from catalogue.saving import put
from catalogue.store import VARIABLE, shop_path
from catalogue.writing import open_for_change, quiet, transaction

if TYPE_CHECKING:
    from sqlite_utils import Database


def add_parts(
    path: str | None,
    parts: Iterable[Part],
    *,
    replace: bool = False,
    by: str | None = None,
    why: str | None = None,
    tell: Callable[[str], None] = quiet,
) -> Saved:
    """Put parts into the shop's catalogue, all or none; how many. Makes the file if need be.

    replace -- whether a part of the same id in that file may be replaced
    by, why -- whose change it is, and the reason (see `changes.change_by`)
    tell    -- called with a sentence where there is something to tell
    Raises CatalogueError: no catalogue named, it cannot be changed, a part is refused.
    """
    named, change = own_path(path), change_by(by, why)
    listed = tuple(parts)
    for part in listed:
        for problem in problems_of(part):
            raise CatalogueError(f"{part.id!r} is refused: {problem.what}")
    with open_for_change(Path(named), tell=tell) as db, transaction(db):
        if not replace:
            refuse_known(db, listed)
        refuse_unvouched(db, listed, change.by)
        saved = put(db, listed, change)
        refuse_lost_successors(db)
    return saved


def own_path(path: str | None) -> str:
    """Where the shop's own catalogue is. Raises CatalogueError if none is named."""
    named = shop_path(path)
    if named is None:
        raise CatalogueError(
            "the generic parts are read-only: name a catalogue of your own with --catalogue PATH "
            f"or the variable {VARIABLE}"
        )
    return named


def refuse_known(db: Database, parts: Iterable[Part]) -> None:
    """Raises CatalogueError if the file has parts of these ids."""
    there = {row[0] for row in db.execute("SELECT id FROM part")}
    double = [part.id for part in parts if part.id in there]
    if double:
        raise CatalogueError(
            f"already in the catalogue: {several(double)}; --replace puts the new in"
        )


def several(ids: list[str]) -> str:
    """Some of many ids, for a message."""
    shown = ", ".join(repr(part_id) for part_id in ids[:5])
    return f"{shown} and {len(ids) - 5} more" if len(ids) > 5 else shown
