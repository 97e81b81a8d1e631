"""The commands that keep watch over jobs after their check, with their arguments and help."""

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
    RulesFrom,
    Width,
    WithoutPack,
)


def seal(
    file: File,
    by: Annotated[str, typer.Option("--by", metavar="NAME", help="Who seals it.")],
    why: Annotated[str, typer.Option("--why", metavar="TEXT", help="The occasion.")] = "",
    replaces: Annotated[
        str,
        typer.Option(
            "--replaces", metavar="SEAL", help="The seal of other verdicts to take the place of."
        ),
    ] = "",
    pack: PackNames = None,
    without_pack: WithoutPack = None,
    rules_from: RulesFrom = None,
    house_rules: HouseRules = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Check a job and keep what it was checked with."""

    def action() -> int:
        from coordination.cli.handed_over import request_of
        from coordination.cli.seal import seal_file

        request = request_of(file, catalogue, pack, without_pack, rules_from, house_rules)
        return seal_file(request, by, why, replaces, width)

    run(action, debug)
