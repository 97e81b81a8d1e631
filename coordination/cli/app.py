"""The commands with their arguments and help; what they do is in a module each.

Only the command that was asked for is imported; `parts` is a program of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from typing import Annotated

import typer

from coordination.cli.guard import run
from coordination.cli.handed_over import measured, report, schedule
from coordination.cli.options import (
    CataloguePath,
    ConditionName,
    Debug,
    File,
    HouseRules,
    PackNames,
    RuleNames,
    RulesFrom,
    Width,
    WithoutPack,
)


class Format(StrEnum):
    """How `check` prints its answer."""

    text = "text"
    json = "json"
    markdown = "markdown"
    junit = "junit"
    sarif = "sarif"


class TableFormat(StrEnum):
    """How `pairs` prints its table."""

    text = "text"
    json = "json"
    markdown = "markdown"


class Shown(StrEnum):
    """Verdicts that can be picked out of an answer."""

    FAIL = "fail"
    UNPROVEN = "unproven"
    NOTE = "note"
    PASS = "pass"
    WAIVED = "waived"


class SchemaOf(StrEnum):
    """What a JSON Schema is published of."""

    system = "system"
    answer = "answer"


_STATUS = "Exit status: 0 all shown to hold; 1 a fail; 2 unusable input; 3 something unproven."


def check(
    file: File,
    format: Annotated[
        Format, typer.Option("--format", help="How to print the answer.")
    ] = Format.text,
    condition: ConditionName = None,
    pack: PackNames = None,
    without_pack: WithoutPack = None,
    rules_from: RulesFrom = None,
    house_rules: HouseRules = None,
    rule: RuleNames = None,
    only: Annotated[
        list[Shown] | None, typer.Option("--only", help="Show these verdicts only (repeatable).")
    ] = None,
    all_: Annotated[
        bool, typer.Option("--all", help="Show passes in full, not in a table.")
    ] = False,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Check a system file, with the reasoning."""
    from coordination.cli.check import check_file
    from coordination.cli.quick import Check

    asked = Check(
        file=file,
        format=format.value,
        condition=condition,
        packs=tuple(pack or ()),
        rules=tuple(rule or ()),
        only=tuple(each.value for each in only or ()),
        full=all_,
        catalogue=catalogue,
        debug=debug,
        width=width,
        without=tuple(without_pack or ()),
        rules_from=tuple(rules_from or ()),
        house_rules=tuple(house_rules or ()),
    )
    run(lambda: check_file(asked), debug)


def explain(
    file: File,
    subject: Annotated[
        str, typer.Argument(metavar="SUBJECT", help="A part's name: 'port feed/1'.")
    ],
    rule: Annotated[
        str | None, typer.Argument(metavar="[RULE]", help="One rule; else all.")
    ] = None,
    condition: ConditionName = None,
    pack: PackNames = None,
    without_pack: WithoutPack = None,
    rules_from: RulesFrom = None,
    house_rules: HouseRules = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Print the whole derivation of verdicts on one part."""

    def action() -> int:
        import os

        from coordination.cli.explain import explain_subject
        from coordination.cli.local import Local, configured
        from coordination.cli.pipeline import Request

        named = Local(tuple(rules_from or ()), tuple(house_rules or ()))
        request = Request(
            file,
            catalogue,
            condition,
            packs=tuple(pack or ()),
            without=tuple(without_pack or ()),
            local=configured(os.environ) + named,
        )
        return explain_subject(request, subject, rule, width)

    run(action, debug)


def faults(
    file: File,
    condition: ConditionName = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Print fault currents and voltages everywhere."""

    def action() -> int:
        from coordination.cli.faults import fault_table
        from coordination.cli.pipeline import Request

        return fault_table(Request(file, catalogue, condition), width)

    run(action, debug)


def curves(
    file: File,
    output: Annotated[
        str, typer.Option("--output", "-o", metavar="PATH", help="The picture: .svg, .png or .pdf.")
    ],
    names: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="[CIRCUIT|DEVICE...]", help="Where the path begins (default: the worst pair)."
        ),
    ] = None,
    condition: ConditionName = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Draw the time-current curves of a path."""

    def action() -> int:
        from coordination.cli.curves import draw_curves
        from coordination.cli.pipeline import Request

        return draw_curves(Request(file, catalogue, condition), tuple(names or ()), output)

    run(action, debug)


def draw(
    file: File,
    output: Annotated[
        str, typer.Option("--output", "-o", metavar="PATH", help="The picture: .svg, .png or .pdf.")
    ],
    condition: ConditionName = None,
    pack: PackNames = None,
    without_pack: WithoutPack = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Draw the one-line diagram, with what fails marked."""

    def action() -> int:
        from coordination.cli.draw import draw_one_line
        from coordination.cli.pipeline import Request

        packs, left = tuple(pack or ()), tuple(without_pack or ())
        return draw_one_line(Request(file, catalogue, condition, packs, without=left), output)

    run(action, debug)


def pairs(
    file: File,
    format: Annotated[
        TableFormat, typer.Option("--format", help="How to print the table.")
    ] = TableFormat.text,
    condition: ConditionName = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Print which of two devices in series opens first."""

    def action() -> int:
        from coordination.cli.pairs import pair_table
        from coordination.cli.pipeline import Request

        return pair_table(Request(file, catalogue, condition), format.value, width)

    run(action, debug)


def rules(
    words: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="[NAME | new PACK [FOLDER]]",
            help="A rule, a pack or its edition (pack@2024); or write a new pack to start from.",
        ),
    ] = None,
    markdown: Annotated[
        bool, typer.Option("--markdown", help="Print the reference of all rules as markdown.")
    ] = False,
    rules_from: RulesFrom = None,
    house_rules: HouseRules = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """List the rules, print a card, or start a pack."""

    def action() -> int:
        from coordination.cli.local import Local
        from coordination.cli.rules import rules_command

        local = Local(tuple(rules_from or ()), tuple(house_rules or ()))
        return rules_command(tuple(words or ()), local, width, markdown=markdown)

    run(action, debug)


def new(
    file: Annotated[str, typer.Argument(metavar="FILE", help="The file to make.")],
    debug: Debug = False,
) -> None:
    """Write a commented starter system."""

    def action() -> int:
        from coordination.cli.starter import write_starter

        return write_starter(file)

    run(action, debug)


def schema(
    of: Annotated[
        SchemaOf, typer.Argument(metavar="[system|answer]", help="Which one.")
    ] = SchemaOf.system,
    debug: Debug = False,
) -> None:
    """Print the JSON Schema of system file or answer."""

    def action() -> int:
        from coordination.cli.schemas import print_schema

        return print_schema(of.value)

    run(action, debug)


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


_COMMANDS = (
    check, explain, faults, curves, draw, pairs, report, schedule, measured, rules, new, schema,
)  # fmt: skip
_PARTS_HELP = "List, show, find, add, import and export parts."


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
    asked = [command for command in _COMMANDS if [command.__name__] == list(arguments[:1])]
    for command in asked or _COMMANDS:
        app.command()(command)
    if not asked:
        app.add_typer(_parts(arguments), name="parts", help=_PARTS_HELP)
    return app


def _parts(arguments: Sequence[str]) -> typer.Typer:
    if arguments[:1] != ["parts"]:
        return typer.Typer()
    from coordination.cli.parts import app

    return app
