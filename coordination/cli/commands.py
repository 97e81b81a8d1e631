"""The commands with their arguments and help; what they do is in a module each.

Only the command that was asked for is imported.
"""

from __future__ import annotations

from typing import Annotated

import typer

from coordination.cli.guard import run
from coordination.cli.options import (
    CataloguePath,
    ConditionName,
    Debug,
    File,
    Format,
    HouseRules,
    LanguageCode,
    PackNames,
    RuleNames,
    RulesFrom,
    SchemaOf,
    Shown,
    TableFormat,
    Width,
    WithoutPack,
)


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
    sealed: Annotated[
        bool, typer.Option("--sealed", help="Tell too what has changed since the job's seal.")
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
        sealed=sealed,
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

        from coordination.checking import Request
        from coordination.checking.local import Local, configured
        from coordination.cli.explain import explain_subject

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
        from coordination.checking import Request
        from coordination.cli.faults import fault_table

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
    language: LanguageCode = "en",
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Draw the time-current curves of a path."""

    def action() -> int:
        from coordination.checking import Request
        from coordination.cli.curves import draw_curves

        request = Request(file, catalogue, condition)
        return draw_curves(request, tuple(names or ()), output, language)

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
        from coordination.checking import Request
        from coordination.cli.pairs import pair_table

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
        from coordination.checking.local import Local
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


def completion(
    shell: Annotated[str, typer.Argument(metavar="SHELL", help="bash, zsh or fish.")],
    debug: Debug = False,
) -> None:
    """Print what a shell needs to complete commands and ids of parts."""

    def action() -> int:
        from coordination.cli.completion import print_script

        return print_script(shell)

    run(action, debug)


def schema(
    of: Annotated[
        SchemaOf, typer.Argument(metavar="[NAME]", help=f"One of {', '.join(SchemaOf)}.")
    ] = SchemaOf.system,
    debug: Debug = False,
) -> None:
    """Print a JSON Schema: of system file, answer, seal."""

    def action() -> int:
        from coordination.cli.schemas import print_schema

        return print_schema(of.value)

    run(action, debug)
