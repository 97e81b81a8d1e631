"""The commands about what is handed over and comes back, with their arguments and help."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from coordination.cli.guard import run
from coordination.cli.options import (
    CataloguePath,
    ConditionName,
    Debug,
    File,
    HouseRules,
    LanguageCode,
    PackNames,
    PlainFormat,
    RulesFrom,
    Width,
    WithoutPack,
)
from coordination.cli.quick import Report

if TYPE_CHECKING:
    from coordination.checking import Request


def draw(
    file: File,
    output: Annotated[
        str, typer.Option("--output", "-o", metavar="PATH", help="The picture: .svg, .png or .pdf.")
    ],
    condition: ConditionName = None,
    language: LanguageCode = "en",
    pack: PackNames = None,
    without_pack: WithoutPack = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Draw the one-line diagram, with what fails marked."""

    def action() -> int:
        from coordination.checking import Request
        from coordination.cli.draw import draw_one_line

        packs, left = tuple(pack or ()), tuple(without_pack or ())
        request = Request(file, catalogue, condition, packs, without=left)
        return draw_one_line(request, output, language)

    run(action, debug)


def report(
    file: File,
    output: Annotated[
        str, typer.Option("--output", "-o", metavar="PATH", help="The papers: .html or .pdf.")
    ],
    sections: Annotated[
        list[str] | None,
        typer.Option("--sections", metavar="NAMES", help="These parts only, with commas between."),
    ] = None,
    language: LanguageCode = "en",
    pack: PackNames = None,
    without_pack: WithoutPack = None,
    rules_from: RulesFrom = None,
    house_rules: HouseRules = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Write the papers to hand over as one page."""

    def action() -> int:
        from coordination.cli.report import write_report

        return write_report(
            Report(
                file=file,
                output=output,
                sections=tuple(sections or ()),
                language=language,
                packs=tuple(pack or ()),
                without=tuple(without_pack or ()),
                rules_from=tuple(rules_from or ()),
                house_rules=tuple(house_rules or ()),
                catalogue=catalogue,
                debug=debug,
            )
        )

    run(action, debug)


def schedule(
    name: Annotated[
        str,
        typer.Argument(
            metavar="NAME",
            help="devices, cables, busbars, loads, energy, shore, labels or commissioning.",
        ),
    ],
    file: File,
    output: Annotated[
        str | None,
        typer.Option("--output", "-o", metavar="PATH", help="Write it: .csv or .xlsx."),
    ] = None,
    language: LanguageCode = "en",
    pack: PackNames = None,
    without_pack: WithoutPack = None,
    rules_from: RulesFrom = None,
    house_rules: HouseRules = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Print or write a schedule, labels, a record."""
    # Of all conditions always: a label of some of them would tell too little current.

    def action() -> int:
        from coordination.cli.schedule import write_schedule

        request = request_of(file, catalogue, pack, without_pack, rules_from, house_rules)
        return write_schedule(request, name, output, width, language)

    run(action, debug)


def measured(
    file: File,
    record: Annotated[
        str | None,
        typer.Argument(metavar="[RECORD]", help="The commissioning record (YAML)."),
    ] = None,
    blank: Annotated[
        bool, typer.Option("--blank", help="Write a record to fill in, with what is expected.")
    ] = False,
    output: Annotated[
        str | None, typer.Option("--output", "-o", metavar="PATH", help="Where to write it.")
    ] = None,
    format: Annotated[PlainFormat, typer.Option("--format", help="text, json.")] = PlainFormat.text,
    pack: PackNames = None,
    without_pack: WithoutPack = None,
    rules_from: RulesFrom = None,
    house_rules: HouseRules = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Compare measured values; judge anew by them."""
    if blank != (record is None) or blank != (output is not None):
        raise typer.BadParameter("FILE RECORD.yaml, or FILE --blank -o RECORD.yaml")

    def action() -> int:
        from coordination.cli.measured import compare_record, write_blank

        request = request_of(file, catalogue, pack, without_pack, rules_from, house_rules)
        if output is not None:
            return write_blank(request, output)
        as_json = format is PlainFormat.json
        return compare_record(request, record or "", width, as_json=as_json)

    run(action, debug)


def request_of(
    file: str,
    catalogue: str | None,
    pack: list[str] | None,
    without_pack: list[str] | None,
    rules_from: list[str] | None,
    house_rules: list[str] | None,
) -> Request:
    """What these options ask for. Raises BadInput: the user's own configuration cannot be read."""
    import os

    from coordination.checking import Request
    from coordination.checking.local import Local, configured

    return Request(
        file,
        catalogue,
        packs=tuple(pack or ()),
        without=tuple(without_pack or ()),
        local=configured(os.environ) + Local(tuple(rules_from or ()), tuple(house_rules or ())),
    )
