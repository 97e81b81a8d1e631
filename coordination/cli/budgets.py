"""The commands about energy and shore power, with their arguments and help."""

from __future__ import annotations

from typing import Annotated

import typer

from coordination.cli.guard import run
from coordination.cli.options import (
    CataloguePath,
    ConditionName,
    Debug,
    File,
    PackNames,
    PlainFormat,
    Width,
    WithoutPack,
)

Steps = Annotated[bool, typer.Option("--steps", help="The whole derivation of every figure.")]


def energy(
    file: File,
    condition: ConditionName = None,
    measured: Annotated[
        list[str] | None,
        typer.Option(
            "--measured",
            metavar="CURRENT",
            help="A current that was measured at a bank: '14.2 A', or 'BATTERY=14.2 A' "
            "(repeatable; without a battery: at the largest bank).",
        ),
    ] = None,
    format: Annotated[PlainFormat, typer.Option("--format", help="text, json.")] = PlainFormat.text,
    steps: Steps = False,
    pack: PackNames = None,
    without_pack: WithoutPack = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Tell how long banks last and what fills them."""

    def action() -> int:
        from coordination.checking import Request
        from coordination.cli.energy import tell_energy

        request = Request(
            file, catalogue, condition, tuple(pack or ()), without=tuple(without_pack or ())
        )
        return tell_energy(request, tuple(measured or ()), format, steps, width)

    run(action, debug)


def shore(
    file: File,
    condition: ConditionName = None,
    format: Annotated[PlainFormat, typer.Option("--format", help="text, json.")] = PlainFormat.text,
    steps: Steps = False,
    pack: PackNames = None,
    without_pack: WithoutPack = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Tell what shore or generator carries, and the limit to set."""

    def action() -> int:
        from coordination.checking import Request
        from coordination.cli.shore import tell_shore

        request = Request(
            file, catalogue, condition, tuple(pack or ()), without=tuple(without_pack or ())
        )
        return tell_shore(request, format, steps, width)

    run(action, debug)
