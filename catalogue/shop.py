"""A shop's own catalogue: what `fusewright parts` does with it. The generic parts never change."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from catalogue.changes import Saved, change_by
from catalogue.checks import problems_of
from catalogue.errors import CatalogueError
from catalogue.near_miss import nearest
from catalogue.parts import Part
from catalogue.problems import SheetError, SheetProblem
from catalogue.reviews import refuse_unvouched
from catalogue.saving import put
from catalogue.sheet import read_sheet, write_sheet
from catalogue.store import VARIABLE, Catalogue, shop_path
from catalogue.writing import open_for_change, quiet, transaction

if TYPE_CHECKING:
    from sqlite_utils import Database

#: The largest sheet that is read; a catalogue of a hundred thousand parts is smaller.
_LARGEST = 64_000_000


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
        return put(db, listed, change)


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


def parts_of_sheet(sheet: str) -> tuple[Part, ...]:
    """The parts of a CSV file. Raises SheetError with all problems of all rows, OSError."""
    data = Path(sheet).read_bytes()
    if len(data) > _LARGEST:
        raise CatalogueError(f"{sheet!r} is larger than {_LARGEST // 1_000_000} MB")
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        problem = SheetProblem(line, "", "this is not UTF-8", "save the sheet as CSV UTF-8")
        raise SheetError((problem,)) from error
    return read_sheet(text)


def import_sheet(path: str | None, sheet: str, *, replace: bool = False) -> Saved:
    """Put the parts of a CSV file into the shop's catalogue, all or none; how many.

    Raises SheetError with all problems of all rows, CatalogueError, OSError.
    """
    return add_parts(path, parts_of_sheet(sheet), replace=replace)


def export_sheet(catalogue: Catalogue, kind: str | None = None) -> str:
    """The CSV of all parts of a kind, or of all: the shop's, and the generic ones not shadowed."""
    found = (catalogue.get(part_id) for part_id in catalogue.ids(kind))
    return write_sheet(part for part in found if part is not None)


def find_parts(catalogue: Catalogue, words: Iterable[str], kind: str | None = None) -> list[Part]:
    """Parts whose id, description, family or document have all words; else that of a near id.

    A word fits where a word of the part begins with it; a number or a single letter must be whole.
    """
    wanted = [word.casefold() for text in words for word in text.split()]
    ids = list(catalogue.ids(kind))
    found = [part for part in map(catalogue.get, ids) if part and _matches(part, wanted)]
    if found or not wanted:
        return found
    near = nearest("-".join(wanted), ids)
    part = catalogue.get(near) if near else None
    return [part] if part else []


def _matches(part: Part, wanted: list[str]) -> bool:
    texts = (part.id, part.kind, part.description, getattr(part, "family", None), part.document)
    text = " ".join(text for text in texts if text).casefold()
    own = set(re.findall(r"[^\W_]+(?:\.\d+)?", text))
    return all(_fits(word, own, text) for word in wanted)


def _fits(word: str, own: set[str], text: str) -> bool:
    if not word.isalnum():
        return word in text
    if len(word) == 1 or word.isdigit():
        return word in own
    return any(each.startswith(word) for each in own)
