"""`fusewright parts`: list, show, find, add, import and export parts; others are beside it.

Only arguments and printing; `catalogue.shop` does the work.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Annotated

import typer

from coordination.cli import (
    part_care,
    part_history,
    parts_finding,
    parts_merging,
    parts_sheets,
)
from coordination.cli.guard import run
from coordination.cli.part_options import Debug
from coordination.cli.parts_options import (
    By,
    CataloguePath,
    Kind,
    PartId,
    Replace,
    Why,
    known_kind,
    known_part,
)

if TYPE_CHECKING:
    from catalogue.parts import Part

app = typer.Typer(
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
    no_args_is_help=True,
    context_settings={"help_option_names": ["-h", "--help"]},
    help="Parts of the catalogue: find, add, review, retire, look back, keep safe.",
)

@app.command("list")
def list_parts(kind: Kind = None, catalogue: CataloguePath = None, debug: Debug = False) -> None:
    """List the parts at hand: id, kind, status, where from, description."""

    def action() -> int:
        from catalogue.store import open_catalogue

        with open_catalogue(catalogue) as parts:
            found = [parts.get(part_id) for part_id in parts.ids(known_kind(kind))]
        return _table(part for part in found if part is not None)

    run(action, debug)


@app.command()
def show(
    part: PartId,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Show all that is known of one part, as it was written."""

    def action() -> int:
        from catalogue.store import open_catalogue
        from coordination.cli.output import emit
        from coordination.cli.part_text import part_text

        with open_catalogue(catalogue) as parts:
            emit(part_text(known_part(parts, part), parts.shadowed(part)))
        return 0

    run(action, debug)


@app.command()
def add(
    what: Annotated[
        str, typer.Argument(metavar="FILE|ID", help="A YAML file with `parts:`, or a new id.")
    ],
    fields: Annotated[
        list[str] | None,
        typer.Argument(metavar="[FIELD=TEXT ...]", help="rated_current='300 A', with an id."),
    ] = None,
    kind: Kind = None,
    replace: Replace = False,
    by: By = None,
    why: Why = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Add parts to the shop's catalogue: of a YAML file, or one by its fields.

    A file has a section `parts:` as a system file has. Fields are written as in a CSV cell:
    interrupt_ratings='5 kA @ 32 V; 10 kA @ 14 V'.
    """

    def action() -> int:
        from coordination.cli.part_files import part_of_fields, parts_of_file

        if kind is None and not fields:
            return _added(catalogue, parts_of_file(what), replace, by, why)
        return _added(catalogue, part_of_fields(what, kind or "", fields or []), replace, by, why)

    run(action, debug)


@app.command()
def curve(
    part: Annotated[str, typer.Argument(metavar="ID", help="A fuse or breaker of the shop.")],
    sheet: Annotated[
        str, typer.Argument(metavar="FILE.csv", help="Columns boundary, current, time.")
    ],
    tolerance: Annotated[
        str | None, typer.Option(metavar="10%", help="Of an average melting curve's current.")
    ] = None,
    between: Annotated[
        str | None, typer.Option(metavar="line|gates", help="What lies between the points.")
    ] = None,
    replace: Annotated[bool, typer.Option("--replace", help="Replace the curve it has.")] = False,
    by: By = None,
    why: Why = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Give a part of the shop its time-current curve from a CSV file: all of it or nothing.

    A row is a point: its boundary (fastest, slowest or average), current and time, with units in
    the cells (300 A, 20 ms) or in the heading (current [A], time [ms]).
    """

    def action() -> int:
        from catalogue.errors import CatalogueError
        from catalogue.shop import add_parts
        from catalogue.store import open_catalogue
        from coordination.cli.guard import tell
        from coordination.cli.output import emit
        from coordination.cli.part_files import curve_of_sheet

        with open_catalogue(catalogue) as parts:
            before = parts.get(part)
        if before is not None and getattr(before, "curve", None) and not replace:
            raise CatalogueError(f"{part!r} has a curve; --replace puts the new in")
        found = curve_of_sheet(catalogue, part, sheet, tolerance, between)
        add_parts(catalogue, (found,), replace=True, by=by, why=why, tell=tell)
        draft = before is not None and before.status == "reviewed"
        emit(f"{part} has the curve of {sheet}" + ("; it is a draft now\n" if draft else "\n"))
        return 0

    run(action, debug)


app.command("find")(parts_finding.find)
app.command("where-used")(parts_finding.where_used)
app.command("import")(parts_sheets.import_parts)
app.command("export")(parts_sheets.export_parts)
app.command("doubts")(parts_sheets.doubts)
app.command("merge")(parts_merging.merge)


def _added(
    catalogue: str | None,
    parts: tuple[Part, ...],
    replace: bool,
    by: str | None,
    why: str | None,
) -> int:
    from catalogue.doubts import doubts_of
    from catalogue.shop import add_parts
    from catalogue.store import shop_path
    from coordination.cli.guard import tell
    from coordination.cli.output import emit
    from coordination.cli.part_sheets import doubts_text

    saved = add_parts(catalogue, parts, replace=replace, by=by, why=why, tell=tell)
    count = saved.added + saved.changed
    same = f"; {saved.unchanged} were there as they are" if saved.unchanged else ""
    emit(f"{count} {'part' if count == 1 else 'parts'} added to {shop_path(catalogue)}{same}\n")
    emit(doubts_text([doubt for part in parts for doubt in doubts_of(part)]))
    return 0


def _table(parts: Iterable[Part]) -> int:
    """One line a part; status 1 if there is none, as with grep."""
    from coordination.cli.output import emit
    from coordination.cli.part_text import part_table

    listed = tuple(parts)
    emit(part_table(listed))
    return 0 if listed else 1


for _command in (*part_history.COMMANDS, *part_care.COMMANDS):
    app.command(_command.__name__.rstrip("_").replace("_", "-"))(_command)
