"""`fusewright parts find` and `where-used`: only arguments; `part_finding` has the words."""

from __future__ import annotations

from typing import Annotated

import typer

from coordination.cli.guard import run
from coordination.cli.options import Debug, PlainFormat, Width
from coordination.cli.parts_options import CataloguePath, Kind, ids_beginning


def find(
    words: Annotated[
        list[str] | None, typer.Argument(metavar="[WORDS]", help="All must occur.")
    ] = None,
    kind: Kind = None,
    current: Annotated[
        str | None, typer.Option(metavar="'>=250 A'", help="Rated current; needs --kind.")
    ] = None,
    interrupt: Annotated[
        str | None,
        typer.Option(
            metavar="'>=12 kA @ 28.8 V'", help="By the row of the lowest listed voltage >= this."
        ),
    ] = None,
    where: Annotated[
        list[str] | None,
        typer.Option(metavar="'FIELD >= 32 V'", help="Any numeric field of the kind (repeatable)."),
    ] = None,
    sort: Annotated[
        str | None, typer.Option(metavar="[-]FIELD", help="Smallest first; with -: largest first.")
    ] = None,
    output: Annotated[
        PlainFormat, typer.Option("--format", help="How they are printed.")
    ] = PlainFormat.text,
    limit: Annotated[int, typer.Option(min=1, max=100_000, help="Parts shown at most.")] = 50,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Find parts by words, or by measure with --kind; status 1 if there are none.

    Words are looked for in id, kind, family, description and document. A part that does not state
    a figure that is asked for is not found.
    """

    def action() -> int:
        from coordination.cli.part_finding import Search, show_found

        return show_found(
            catalogue,
            Search(tuple(words or ()), kind, current, interrupt, tuple(where or ()), sort, limit),
            plain=output is PlainFormat.json,
        )

    run(action, debug)


def where_used(
    part: Annotated[
        str, typer.Argument(metavar="ID", help="The part's id.", autocompletion=ids_beginning)
    ],
    folder: Annotated[str, typer.Argument(metavar="DIR", help="Where system files are.")] = ".",
    output: Annotated[
        PlainFormat, typer.Option("--format", help="How it is printed.")
    ] = PlainFormat.text,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Which system files below a folder name a part, and where.

    Status 0: some do; 1: none does; 3: a file could not be read, so that more may.
    """

    def action() -> int:
        from coordination.cli.part_finding import show_uses

        return show_uses(catalogue, part, folder, width, plain=output is PlainFormat.json)

    run(action, debug)
