"""`fusewright parts`: the safety of a catalogue's file: verify, backup, upgrade, schema."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated

import typer

from coordination.cli.guard import run
from coordination.cli.part_options import Debug
from coordination.cli.parts_options import CataloguePath


def verify(catalogue: CataloguePath = None, debug: Debug = False) -> None:
    """Look the shop's catalogue over: pages, constraints, every revision; status 1 if not sound."""

    def action() -> int:
        from catalogue.shop import own_path
        from catalogue.verifying import verify as look_over
        from coordination.cli.history_text import cut
        from coordination.cli.output import emit

        path = own_path(catalogue)
        found = look_over(path)
        about = f"{found.parts} parts, {found.revisions} revisions, {found.changes} changes"
        sound = "nothing wrong was found" if not found.problems else "NOT SOUND"
        lines = [f"{cut(path)}: {about}: {sound}", *(f"  {cut(each)}" for each in found.problems)]
        if found.problems:
            lines.append("  Do: put the last sound backup in its place; keep this file aside.")
        emit("\n".join(lines) + "\n")
        return 1 if found.problems else 0

    run(action, debug)


def backup(
    target: Annotated[str, typer.Argument(metavar="FILE", help="Where the copy goes.")],
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Copy the shop's catalogue, whole, while others write; replaces an older backup."""

    def action() -> int:
        from pathlib import Path

        from catalogue.backup import back_up
        from catalogue.shop import own_path
        from coordination.cli.output import emit
        from coordination.report.wording import clean

        path = own_path(catalogue)
        back_up(Path(path), Path(target))
        emit(clean(f"{path} copied to {target}") + "\n")
        return 0

    run(action, debug)


def upgrade(catalogue: CataloguePath = None, debug: Debug = False) -> None:
    """Bring the shop's catalogue to the newest layout, with a backup first."""

    def action() -> int:
        from pathlib import Path

        from catalogue.errors import CatalogueError
        from catalogue.shop import own_path
        from catalogue.writing import open_for_change
        from coordination.cli.output import emit
        from coordination.report.wording import clean

        path = own_path(catalogue)
        if not Path(path).is_file():
            raise CatalogueError(f"there is no catalogue file {path!r}")
        told: list[str] = []
        with open_for_change(Path(path), tell=told.append):
            pass
        emit(clean(told[0] if told else f"{path} has the newest layout already") + "\n")
        return 0

    run(action, debug)


def schema(debug: Debug = False) -> None:
    """Print the page about tables and views, for other tools that open a catalogue."""

    def action() -> int:
        from catalogue.schema_page import schema_page
        from coordination.cli.output import emit

        emit(schema_page())
        return 0

    run(action, debug)


COMMANDS: tuple[Callable[..., None], ...] = (verify, backup, upgrade, schema)
