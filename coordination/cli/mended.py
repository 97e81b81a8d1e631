"""The command that proposes changes, with its arguments and help."""

from __future__ import annotations

from typing import Annotated

import typer

from coordination.cli.guard import run
from coordination.cli.options import (
    CataloguePath,
    Debug,
    File,
    HouseRules,
    PackNames,
    PlainFormat,
    RulesFrom,
    Width,
    WithoutPack,
)


def suggest(
    file: File,
    subject: Annotated[
        str | None, typer.Argument(metavar="[SUBJECT]", help="Cure this part only.")
    ] = None,
    apply: Annotated[
        bool, typer.Option("--apply", help="Write the first answer into the file, once shown.")
    ] = False,
    answer: Annotated[
        int, typer.Option("--answer", min=1, max=100, help="The answer that --apply writes.")
    ] = 1,
    changes: Annotated[
        int, typer.Option("--changes", min=1, max=6, help="The most changes in one answer.")
    ] = 3,
    limit: Annotated[
        int, typer.Option("--limit", min=1, max=1_000_000, help="The most combinations judged.")
    ] = 2000,
    seconds: Annotated[
        float, typer.Option("--seconds", min=0.0, max=1e6, help="How long it may take.")
    ] = 600.0,
    shorten: Annotated[
        float, typer.Option("--shorten", min=0.0, max=90.0, help="Shorten cables by so many %.")
    ] = 25.0,
    form: Annotated[
        PlainFormat, typer.Option("--format", help="How to print the answer.")
    ] = PlainFormat.text,
    pack: PackNames = None,
    without_pack: WithoutPack = None,
    rules_from: RulesFrom = None,
    house_rules: HouseRules = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Look for the smallest changes that cure what fails."""

    def action() -> int:
        from coordination.cli.handed_over import request_of
        from coordination.cli.suggest import print_suggestions
        from coordination.suggest import Bounds

        request = request_of(file, catalogue, pack, without_pack, rules_from, house_rules)
        bounds = Bounds(changes=changes, judged=limit, seconds=seconds, shorten=shorten / 100)
        return print_suggestions(
            request, subject, bounds, form is PlainFormat.json, answer if apply else None, width
        )

    run(action, debug)
