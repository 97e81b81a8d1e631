"""The commands about what may happen to a system, with their arguments and help."""

from __future__ import annotations

from typing import Annotated

import typer

from coordination.cli.guard import run
from coordination.cli.options import (
    CataloguePath,
    ConditionName,
    Debug,
    File,
    TableFormat,
    Width,
)


def outage(
    file: File,
    event: Annotated[
        str | None,
        typer.Argument(
            metavar="[EVENT]", help="What opens, trips or is lost; or the equipment it strikes."
        ),
    ] = None,
    format: Annotated[
        TableFormat, typer.Option("--format", help="How to print it.")
    ] = TableFormat.text,
    condition: ConditionName = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Print what goes dark by any single event."""

    def action() -> int:
        from coordination.checking import Request
        from coordination.cli.outage import outage_table

        return outage_table(Request(file, catalogue, condition), event, format.value, width)

    run(action, debug)
