"""A shop's own catalogue: what `fusewright parts` does with it. The generic parts never change."""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

from catalogue.checks import problems_of
from catalogue.errors import CatalogueError
from catalogue.near_miss import nearest
from catalogue.parts import Part
from catalogue.problems import SheetError, SheetProblem
from catalogue.sheet import read_sheet, write_sheet
from catalogue.store import VARIABLE, Catalogue, shop_path
from catalogue.writing import open_for_change, save

#: The largest sheet that is read; a catalogue of a hundred thousand parts is smaller.
_LARGEST = 64_000_000


def add_parts(path: str | None, parts: Iterable[Part], *, replace: bool = False) -> int:
    """Put parts into the shop's catalogue, all or none; how many. Makes the file if need be.

    replace -- whether a part of the same id in that file may be replaced
    Raises CatalogueError: no catalogue named, it cannot be changed, a part is refused.
    """
    named = shop_path(path)
    if named is None:
        raise CatalogueError(
            "the generic parts are read-only: name a catalogue of your own with --catalogue PATH "
            f"or the variable {VARIABLE}"
        )
    listed = tuple(parts)
    for part in listed:
        for problem in problems_of(part):
            raise CatalogueError(f"{part.id!r} is refused: {problem.what}")
    with open_for_change(Path(named)) as db:
        if not replace:
            _refuse_known([row[0] for row in db.execute("SELECT id FROM part")], listed)
        save(db, listed)
    return len(listed)


def _refuse_known(known: Iterable[str], parts: tuple[Part, ...]) -> None:
    there = set(known)
    double = [part.id for part in parts if part.id in there]
    if double:
        shown = ", ".join(repr(part_id) for part_id in double[:5])
        more = f" and {len(double) - 5} more" if len(double) > 5 else ""
        raise CatalogueError(f"already in the catalogue: {shown}{more}; --replace puts the new in")


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


def import_sheet(path: str | None, sheet: str, *, replace: bool = False) -> int:
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
