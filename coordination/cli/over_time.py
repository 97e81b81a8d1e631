"""The commands that keep watch over jobs after their check, with their arguments and help."""

from __future__ import annotations

from typing import Annotated

import typer

from coordination.cli.guard import run
from coordination.cli.options import (
    CataloguePath,
    Debug,
    EngineName,
    File,
    HouseRules,
    LineFormat,
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


def recheck(
    places: Annotated[
        list[str], typer.Argument(metavar="DIR...", help="Folders with jobs, or system files.")
    ],
    changed_part: Annotated[
        str, typer.Option("--changed-part", metavar="ID", help="Only jobs that use this part.")
    ] = "",
    jobs: Annotated[
        int | None,
        typer.Option("--jobs", "-j", min=1, max=1024, help="Processes (default: processors)."),
    ] = None,
    engine: Annotated[
        EngineName, typer.Option("--engine", help="Where: on this machine, or by dask.")
    ] = EngineName.local,
    scheduler: Annotated[
        str | None,
        typer.Option(
            "--scheduler", metavar="ADDRESS", help="Of dask (default: a cluster of this machine)."
        ),
    ] = None,
    format: Annotated[
        LineFormat, typer.Option("--format", help="How to print the lines.")
    ] = LineFormat.text,
    resume: Annotated[
        str | None,
        typer.Option("--resume", metavar="STATE", help="Keep there what is done; go on from it."),
    ] = None,
    limit: Annotated[
        float, typer.Option("--limit", metavar="SECONDS", min=1, help="Longest time for one job.")
    ] = 300.0,
    pack: PackNames = None,
    without_pack: WithoutPack = None,
    rules_from: RulesFrom = None,
    house_rules: HouseRules = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Check every job below folders against its seal."""

    def action() -> int:
        from coordination.cli.recheck import Recheck, recheck_places

        asked = Recheck(
            places=tuple(places),
            changed_part=changed_part,
            jobs=jobs,
            engine=engine.value,
            scheduler=scheduler,
            format=format.value,
            resume=resume,
            limit=limit,
            packs=tuple(pack or ()),
            without=tuple(without_pack or ()),
            rules_from=tuple(rules_from or ()),
            house_rules=tuple(house_rules or ()),
            catalogue=catalogue,
            width=width,
        )
        return recheck_places(asked)

    run(action, debug)
