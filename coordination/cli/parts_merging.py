"""`fusewright parts merge`: what another bench's catalogue holds, conflicts field by field."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from coordination.cli.guard import run
from coordination.cli.options import Debug, Width
from coordination.cli.parts_options import By, CataloguePath, Why

if TYPE_CHECKING:
    from catalogue.merging import Conflict, Merge


def merge(
    other: Annotated[
        str, typer.Argument(metavar="OTHER", help="The catalogue to take parts from.")
    ],
    take: Annotated[
        list[str] | None,
        typer.Option(
            "--take",
            metavar="theirs=ID|ours=ID",
            help="Decide a conflict; * for ID: all of them (repeatable).",
        ),
    ] = None,
    dry_run: Annotated[
        bool, typer.Option("--dry-run", help="Show what would be merged; write nothing.")
    ] = False,
    by: By = None,
    why: Why = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Merge another catalogue into the shop's: all or nothing.

    Parts that only it has come with their revisions. Where both have a part and differ, nothing is
    written until --take says whose counts. Status 1: conflicts are to be decided.
    """

    def action() -> int:
        from catalogue.merging import Undecided, compare, decisions
        from catalogue.merging import merge as put
        from coordination.cli.guard import tell
        from coordination.cli.output import columns, emit

        if dry_run:
            found = compare(catalogue, other)
            emit(_text(found, found.conflicts, columns(width)) + "nothing was written\n")
            return 1 if found.conflicts else 0
        try:
            found = put(catalogue, other, decisions(take or ()), by, why)
        except Undecided as error:
            emit(_text(error.found, error.left, columns(width)))
            tell(str(error))
            return 1
        emit(_text(found, (), columns(width)))
        return 0

    run(action, debug)


def _text(found: Merge, conflicts: tuple[Conflict, ...], width: int) -> str:
    """Counts, then each conflict with the fields that differ."""
    from coordination.report.tables import columns as drawn

    text = (
        f"{len(found.only_there)} only there, {found.same} the same, "
        f"{len(found.conflicts)} in conflict\n"
    )
    rows = [row for conflict in conflicts for row in _rows(conflict)]
    if rows:
        lines = drawn(rows, ("part", "field", "ours", "theirs"), "llll", width)
        text += "\n" + "".join(f"{line}\n" for line in lines) + "\n"
    return text


def _rows(conflict: Conflict) -> list[tuple[str, str, str, str]]:
    from coordination.cli.part_sheets import short
    from coordination.report.wording import clean

    name = clean(conflict.part_id)
    if conflict.ours is None or conflict.theirs is None:
        ours, theirs = (
            "removed" if side is None else "kept" for side in (conflict.ours, conflict.theirs)
        )
        rows = [(name, "", ours, theirs)]
    else:
        rows = [
            (name if number == 0 else "", field, short(before), short(after))
            for number, (field, before, after) in enumerate(conflict.fields)
        ]
    if conflict.known:
        rows.append(("", f"({conflict.known})", "", ""))
    return rows
