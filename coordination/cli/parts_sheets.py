"""`fusewright parts import`, `export` and `doubts`: only arguments; `part_sheets` has the words."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from coordination.cli.guard import run
from coordination.cli.options import Debug, PlainFormat, Width
from coordination.cli.parts_options import (
    By,
    CataloguePath,
    Kind,
    PartIds,
    Replace,
    Why,
)

if TYPE_CHECKING:
    from catalogue.changes import Saved
    from coordination.cli.part_sheets import Watched


def import_parts(
    sheet: Annotated[
        str,
        typer.Argument(metavar="FILE", help=".csv, .xlsx (extra `sheets`) or .json."),
    ],
    map_path: Annotated[
        str | None,
        typer.Option("--map", metavar="MAP.yaml", help="What the sheet's headings mean."),
    ] = None,
    page: Annotated[
        str | None, typer.Option("--sheet", metavar="NAME", help="The sheet of a workbook.")
    ] = None,
    dry_run: Annotated[
        bool, typer.Option("--dry-run", help="Show what would change; write nothing.")
    ] = False,
    output: Annotated[
        PlainFormat, typer.Option("--format", help="How a dry run is printed.")
    ] = PlainFormat.text,
    replace: Replace = False,
    by: By = None,
    why: Why = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Import a sheet into the shop's catalogue: all parts or none.

    A row is a part, or a point of one: columns like interrupt_ratings.current [kA] take one
    quantity a row, and rows of one id make one part. Units stand in the cells or in the headings.
    """

    def action() -> int:
        from catalogue.sheets.importing import import_parts as put
        from catalogue.shop import own_path
        from coordination.cli.guard import tell
        from coordination.cli.output import emit
        from coordination.cli.part_sheets import Watched, parts_in

        parts = Watched(parts_in(sheet, map_path, page))
        if dry_run:
            return _dry_run(parts, catalogue, width, output is PlainFormat.json)
        saved = put(catalogue, parts, replace=replace, by=by, why=why, tell=tell)
        emit(f"{_counted(saved, own_path(catalogue))}\n{parts.text()}")
        return 0

    run(action, debug)


def _dry_run(parts: Watched, catalogue: str | None, width: int | None, plain: bool) -> int:
    import os

    from catalogue.sheets.changes import changes_of
    from catalogue.shop import own_path
    from catalogue.store import Store
    from coordination.cli.output import emit
    from coordination.cli.part_sheets import changes_answer, emit_json, show_changes

    path = own_path(catalogue)
    shop = Store(path, "shop") if os.path.exists(path) else None
    try:
        # Every row is read before anything is shown: a problem in the last one is the answer.
        changes = list(changes_of(parts, shop))
    finally:
        if shop is not None:
            shop.close()
    if plain:
        emit_json(changes_answer(changes, parts.doubts))
        return 0
    show_changes(changes, width)
    emit(parts.text())
    return 0


def _counted(saved: Saved, path: str) -> str:
    """ "3 parts added to PATH, 1 changed, 2 as they were"."""
    added, changed, unchanged = saved
    words = [f"{added} {'part' if added == 1 else 'parts'} added to {path}"]
    words += [f"{changed} changed"] if changed else []
    words += [f"{unchanged} as they were"] if unchanged else []
    return ", ".join(words)


def export_parts(
    sheet: Annotated[
        str,
        typer.Argument(metavar="FILE", help="To write: .csv, .xlsx (extra `sheets`), .json, .md."),
    ],
    kind: Kind = None,
    own: Annotated[
        bool, typer.Option("--own", help="The shop's parts only, not the generic ones.")
    ] = False,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Export the parts at hand as a sheet; `import` reads it back without loss (not .md)."""

    def action() -> int:
        from catalogue.store import open_catalogue
        from coordination.cli.output import emit
        from coordination.cli.part_sheets import write_sheet
        from coordination.cli.parts_options import known_kind
        from coordination.report.wording import clean

        with open_catalogue(catalogue) as parts:
            found = (parts.get(part_id) for part_id in parts.ids(known_kind(kind)))
            count = write_sheet(
                sheet,
                (each for each in found if each and not (own and each.origin == "generic")),
            )
        emit(f"{clean(sheet)} written: {count} {'part' if count == 1 else 'parts'}\n")
        return 0

    run(action, debug)


def doubts(
    ids: PartIds = None,
    kind: Kind = None,
    output: Annotated[
        PlainFormat, typer.Option("--format", help="How they are printed.")
    ] = PlainFormat.text,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Look at parts for figures that are hard to believe; status 1 if there are any.

    Each doubt names the number expected and its source. Without ID: the shop's parts, or the
    generic ones where no catalogue is named.
    """

    def action() -> int:
        from catalogue.doubts import doubts_of
        from catalogue.store import open_catalogue
        from coordination.cli.output import emit
        from coordination.cli.part_sheets import doubts_answer, doubts_text, emit_json
        from coordination.cli.parts_options import known_kind, known_part

        with open_catalogue(catalogue) as parts:
            if ids:
                looked = [known_part(parts, each) for each in ids]
                found = [doubt for part in looked for doubt in doubts_of(part)]
                count = len(looked)
            else:
                store = parts.shop or parts.generic
                names = store.ids(known_kind(kind))
                some = (part for each in names if (part := store.get(each)) is not None)
                found = [doubt for part in some for doubt in doubts_of(part)]
                count = len(names)
        if output is PlainFormat.json:
            emit_json({"looked_at": count, "doubts": doubts_answer(found)})
            return 1 if found else 0
        emit(doubts_text(found, 1_000_000))
        emit(f"{count} {'part' if count == 1 else 'parts'} looked at, {len(found)} doubts\n")
        return 1 if found else 0

    run(action, debug)
