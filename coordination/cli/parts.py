"""`fusewright parts`: list, show, find, add, import and export parts of the catalogue.

Only arguments and printing; `catalogue.shop` does the work.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Annotated

import typer

from coordination.cli.guard import run

if TYPE_CHECKING:
    from catalogue.parts import Part

app = typer.Typer(
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
    no_args_is_help=True,
    context_settings={"help_option_names": ["-h", "--help"]},
    help="List, show, find, add, import and export parts.",
)

CataloguePath = Annotated[
    str | None,
    typer.Option(
        "--catalogue",
        metavar="PATH",
        help="The shop's own catalogue (or set FUSEWRIGHT_CATALOGUE).",
    ),
]
Kind = Annotated[
    str | None, typer.Option("--kind", metavar="KIND", help="fuse, breaker, cable, busbar ...")
]
Replace = Annotated[bool, typer.Option("--replace", help="Replace parts of the same id.")]
Debug = Annotated[bool, typer.Option("--debug", help="Show where an error arose.")]


@app.command("list")
def list_parts(kind: Kind = None, catalogue: CataloguePath = None, debug: Debug = False) -> None:
    """List the parts at hand: id, kind, status, where from, description."""

    def action() -> int:
        from catalogue.store import open_catalogue

        with open_catalogue(catalogue) as parts:
            found = [parts.get(part_id) for part_id in parts.ids(_known(kind))]
        return _table(part for part in found if part is not None)

    run(action, debug)


@app.command()
def show(
    part: Annotated[str, typer.Argument(metavar="ID", help="The part's id.")],
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Show all that is known of one part, as it was written."""

    def action() -> int:
        from catalogue.errors import CatalogueError
        from catalogue.store import open_catalogue
        from coordination.cli.output import emit
        from coordination.cli.part_text import part_text

        with open_catalogue(catalogue) as parts:
            found = parts.get(part)
            if found is None:
                near = parts.near(part)
                hint = f"; did you mean {near!r}?" if near else ""
                raise CatalogueError(f"there is no part {part[:100]!r} in {parts.describe()}{hint}")
            emit(part_text(found, parts.shadowed(part)))
        return 0

    run(action, debug)


@app.command()
def find(
    words: Annotated[list[str], typer.Argument(metavar="WORDS", help="All must occur.")],
    kind: Kind = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Find parts whose id, description, family or document have all the words."""

    def action() -> int:
        from catalogue.shop import find_parts
        from catalogue.store import open_catalogue

        with open_catalogue(catalogue) as parts:
            return _table(find_parts(parts, words, _known(kind)))

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
            return _added(catalogue, parts_of_file(what), replace)
        return _added(catalogue, part_of_fields(what, kind or "", fields or []), replace)

    run(action, debug)


@app.command("import")
def import_parts(
    sheet: Annotated[str, typer.Argument(metavar="FILE.csv", help="The sheet: one part a row.")],
    replace: Replace = False,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Import parts of a CSV sheet into the shop's catalogue: all of them or none."""

    def action() -> int:
        from coordination.cli.part_files import parts_of_sheet

        return _added(catalogue, parts_of_sheet(sheet), replace)

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
        from coordination.cli.output import emit
        from coordination.cli.part_files import curve_of_sheet

        with open_catalogue(catalogue) as parts:
            before = parts.get(part)
        if before is not None and getattr(before, "curve", None) and not replace:
            raise CatalogueError(f"{part!r} has a curve; --replace puts the new in")
        found = curve_of_sheet(catalogue, part, sheet, tolerance, between)
        add_parts(catalogue, (found,), replace=True)
        draft = before is not None and before.status == "reviewed"
        emit(f"{part} has the curve of {sheet}" + ("; it is a draft now\n" if draft else "\n"))
        return 0

    run(action, debug)


@app.command("export")
def export_parts(
    sheet: Annotated[str, typer.Argument(metavar="FILE.csv", help="The sheet to write.")],
    kind: Kind = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Export the parts at hand as a CSV sheet that `import` reads back without loss."""

    def action() -> int:
        from pathlib import Path

        from catalogue.shop import export_sheet
        from catalogue.store import open_catalogue
        from coordination.cli.output import emit

        with open_catalogue(catalogue) as parts:
            text = export_sheet(parts, _known(kind))
        Path(sheet).write_bytes(text.encode())
        emit(f"{sheet} written\n")
        return 0

    run(action, debug)


def _known(kind: str | None) -> str | None:
    """The kind, if it is one. Raises CatalogueError."""
    from catalogue.errors import CatalogueError
    from catalogue.near_miss import hint_of
    from catalogue.parts import KINDS

    if kind is not None and kind not in KINDS:
        hint = hint_of(kind, KINDS) or f"kinds are {', '.join(KINDS)}"
        raise CatalogueError(f"{kind[:40]!r} is no kind of part; {hint}")
    return kind


def _added(catalogue: str | None, parts: tuple[Part, ...], replace: bool) -> int:
    from catalogue.shop import add_parts
    from catalogue.store import shop_path
    from coordination.cli.output import emit

    count = sum(add_parts(catalogue, parts, replace=replace))
    emit(f"{count} {'part' if count == 1 else 'parts'} added to {shop_path(catalogue)}\n")
    return 0


def _table(parts: Iterable[Part]) -> int:
    """One line a part; status 1 if there is none, as with grep."""
    from coordination.cli.output import emit
    from coordination.cli.part_text import part_table

    listed = tuple(parts)
    emit(part_table(listed))
    return 0 if listed else 1
