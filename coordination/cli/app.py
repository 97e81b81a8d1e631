"""The program that typer makes of the commands, or of the one command that was asked for.

`parts` is a program of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

import typer

from coordination.cli import (
    budgets,
    commands,
    completion,
    handed_over,
    mended,
    over_time,
    weighed,
    what_if,
)


def _version(wanted: bool) -> None:
    if wanted:
        from coordination import __version__

        typer.echo(f"fusewright {__version__}")
        raise typer.Exit


def _fusewright(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version.")
    ] = False,
) -> None:
    """Check the protection of a small DC system, with the reasoning."""


_STATUS = "Exit status: 0 all shown to hold; 1 a fail; 2 unusable input; 3 something unproven."
_COMMANDS = (
    commands.check,
    commands.explain,
    commands.faults,
    budgets.energy,
    budgets.shore,
    commands.curves,
    handed_over.draw,
    commands.pairs,
    what_if.outage,
    handed_over.report,
    handed_over.schedule,
    handed_over.measured,
    over_time.seal,
    weighed.margins,
    weighed.compare,
    over_time.recheck,
    mended.suggest,
    commands.rules,
    commands.new,
    commands.schema,
    commands.completion,
)
_PARTS_HELP = "Parts of the catalogue: find, add, review, retire, look back, keep safe."


def build(arguments: Sequence[str]) -> typer.Typer:
    """The program, or of it the one command that these arguments ask for."""
    app = typer.Typer(
        rich_markup_mode=None,
        pretty_exceptions_enable=False,
        add_completion=False,
        no_args_is_help=True,
        context_settings={"help_option_names": ["-h", "--help"]},
        epilog=_STATUS,
    )
    app.callback()(_fusewright)
    # Taking every command's arguments apart takes longer than most checks; one is enough.
    completing = completion.asked()
    named = list(arguments[:1])
    asked = [] if completing else [each for each in _COMMANDS if [each.__name__] == named]
    for command in asked or _COMMANDS:
        app.command()(command)
    if not asked:
        wanted = ["parts"] if completing else arguments
        app.add_typer(_parts(wanted), name="parts", help=_PARTS_HELP)
    if completing:
        completion.make_ready()
    return app


def _parts(arguments: Sequence[str]) -> typer.Typer:
    if arguments[:1] != ["parts"]:
        return typer.Typer()
    from coordination.cli.parts import app

    return app
