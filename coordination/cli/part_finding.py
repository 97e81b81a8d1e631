"""What `fusewright parts find` and `where-used` ask and print."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.cli.output import columns, emit
from coordination.report.wording import clean

if TYPE_CHECKING:
    from catalogue.store import Catalogue
    from coordination.reading.where_used import Found


class Search(NamedTuple):
    """What is looked for, as it was asked."""

    words: tuple[str, ...]
    kind: str | None
    current: str | None
    interrupt: str | None
    where: tuple[str, ...]
    sort: str | None
    limit: int

    @property
    def by_measure(self) -> bool:
        return bool(self.current or self.interrupt or self.where or self.sort)


def show_found(path: str | None, search: Search, *, plain: bool = False) -> int:
    """Print the parts that fit, a line each; gives 0, or 1 for none. Raises CatalogueError.

    plain -- for machines, as `export` writes them
    """
    from catalogue.errors import CatalogueError
    from catalogue.store import open_catalogue
    from coordination.cli.part_text import part_table
    from coordination.cli.parts_options import known_kind

    known_kind(search.kind)
    if not (search.words or search.by_measure or search.kind):
        raise CatalogueError("what is to be found? WORDS, or --kind with --current, --where ...")
    with open_catalogue(path) as catalogue:
        ids, instead = _ids(catalogue, search)
        parts = [part for each in ids[: search.limit] if (part := catalogue.get(each))]
    if plain:
        from catalogue.sheets.writing import as_json

        emit(as_json(() if instead else parts))
        return 1 if instead or not parts else 0
    if instead and parts:
        emit(f"nothing fits {clean(' '.join(search.words))!r}; these fit {clean(instead)!r}:\n")
    emit(part_table(parts))
    if len(ids) > search.limit:
        emit(f"more parts fit: --limit shows more than {search.limit}\n")
    return 1 if instead or not parts else 0


def _ids(catalogue: Catalogue, search: Search) -> tuple[list[str], str]:
    from catalogue.errors import CatalogueError
    from catalogue.finding.by_measure import find_by_measure
    from catalogue.finding.by_words import find_by_words

    if not search.by_measure and search.words:
        hits = find_by_words(catalogue, search.words, search.kind, search.limit)
        return hits.ids, hits.instead
    if search.kind is None:
        raise CatalogueError("figures are those of a kind: add --kind fuse, or another")
    asked = _asked(search)
    if not search.words:
        return find_by_measure(catalogue, asked), ""
    # Both: the words are looked at in the order of the measure.
    wide = find_by_measure(catalogue, asked._replace(limit=100_000))
    hits = find_by_words(catalogue, search.words, search.kind, 100_000)
    having = set(hits.ids)
    return [each for each in wide if each in having], hits.instead


def _asked(search: Search) -> Any:
    from catalogue.finding.by_measure import Asked
    from catalogue.finding.conditions import bound, interrupt, measure_of, where

    kind = search.kind or ""
    conditions = [where(kind, text) for text in search.where]
    if search.interrupt:
        conditions.insert(0, interrupt(kind, search.interrupt))
    if search.current:
        conditions.insert(0, bound(kind, "current", search.current))
    sort = search.sort or ""
    down = sort.startswith("-")
    column = measure_of(kind, sort.lstrip("-")).least if sort else ""
    return Asked(kind, tuple(conditions), column, down, search.limit)


def show_uses(
    path: str | None, part_id: str, folder: str, width: int | None, *, plain: bool
) -> int:
    """Print where a part is used; gives 0, 1 or 3. Raises BadInput, CatalogueError."""
    from coordination.cli.part_sheets import emit_json
    from coordination.reading.where_used import where_used

    found = where_used(part_id, folder)
    if plain:
        emit_json(_plain(part_id, found))
    else:
        emit(_text(path, part_id, folder, found, columns(width)))
    if found.broken:
        return 3
    return 0 if found.uses else 1


def _plain(part_id: str, found: Found) -> dict[str, Any]:
    return {
        "part": part_id,
        "uses": [use._asdict() for use in found.uses],
        "broken": [
            {"file": each.file, "line": each.line, "column": each.column, "what": each.what}
            for each in found.broken
        ],
        "systems": found.systems,
        "others": found.others,
    }


def _text(path: str | None, part_id: str, folder: str, found: Found, width: int) -> str:
    from coordination.report.tables import columns as drawn

    files = len({use.file for use in found.uses})
    lines = [
        f"{clean(part_id)} is named in {files} of {found.systems} system files in {clean(folder)}"
    ]
    if found.uses:
        rows = [
            (
                clean(f"{use.file}:{use.line}:{use.column}"),
                clean(use.where) + (" (the file's own part of that id)" if use.own else ""),
            )
            for use in found.uses
        ]
        lines += ["", *drawn(rows, ("place", "used as"), "ll", width)]
    elif not found.broken:
        lines += _unknown(path, part_id)
    if found.broken:
        lines += ["", "Not read, so that it may be named there too:"]
        lines += [
            clean(":".join(filter(None, (each.file, str(each.line or ""), str(each.column or "")))))
            + f": {clean(each.what)}"
            for each in found.broken
        ]
    return "".join(f"{line}\n" for line in lines)


def _unknown(path: str | None, part_id: str) -> list[str]:
    """A word on an id that no catalogue at hand has; nothing where it has."""
    from catalogue.store import open_catalogue

    with open_catalogue(path) as catalogue:
        if catalogue.get(part_id) is not None:
            return []
        near = catalogue.near(part_id)
    hint = f"; did you mean {near!r}?" if near else ""
    return [f"no part of that id is in {clean(catalogue.describe())}{hint}"]
