"""The commands that judge a system many times over or twice, with their arguments and help."""

from __future__ import annotations

from typing import Annotated

import typer

from coordination.cli.guard import run
from coordination.cli.options import (
    CataloguePath,
    ConditionName,
    Debug,
    File,
    HouseRules,
    PackNames,
    PlainFormat,
    RulesFrom,
    TableFormat,
    Width,
    WithoutPack,
)

#: Enough for some hundred inputs; about a minute for a system of sixty parts.
_CHECKS = 5000


def margins(
    file: File,
    subject: Annotated[
        str | None, typer.Argument(metavar="[SUBJECT]", help="One part's verdicts only.")
    ] = None,
    rule: Annotated[
        str | None, typer.Argument(metavar="[RULE]", help="One rule's verdict on it only.")
    ] = None,
    inputs: Annotated[
        list[str] | None,
        typer.Option("--input", metavar="WORDS", help="Inputs with these words (repeatable)."),
    ] = None,
    checks: Annotated[
        int, typer.Option("--checks", min=1, max=1_000_000, help="The most checks that it makes.")
    ] = _CHECKS,
    form: Annotated[
        PlainFormat, typer.Option("--format", help="How to print the answer.")
    ] = PlainFormat.text,
    condition: ConditionName = None,
    pack: PackNames = None,
    without_pack: WithoutPack = None,
    rules_from: RulesFrom = None,
    house_rules: HouseRules = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Tell at which value of each input a verdict flips."""

    def action() -> int:
        from coordination.cli.handed_over import request_of
        from coordination.cli.margins import print_margins

        request = request_of(file, catalogue, pack, without_pack, rules_from, house_rules)
        return print_margins(
            request._replace(condition=condition), subject, rule, tuple(inputs or ()), checks,
            form is PlainFormat.json, width,
        )  # fmt: skip

    run(action, debug)


def compare(
    old: Annotated[
        str, typer.Argument(metavar="OLD", help="A system file, its seal, or a JSON answer.")
    ],
    new: Annotated[
        str | None,
        typer.Argument(metavar="[NEW]", help="The same later; without it OLD against its seal."),
    ] = None,
    form: Annotated[
        TableFormat, typer.Option("--format", help="How to print the answer.")
    ] = TableFormat.text,
    threshold: Annotated[
        str, typer.Option("--threshold", metavar="SHARE", help="Of a margin or current, to tell.")
    ] = "1 %",
    all_: Annotated[bool, typer.Option("--all", help="Every row of every table.")] = False,
    edition: Annotated[
        list[str] | None,
        typer.Option("--edition", metavar="PACK@EDITION", help="For the old side (repeatable)."),
    ] = None,
    against_edition: Annotated[
        list[str] | None,
        typer.Option(
            "--against-edition", metavar="PACK@EDITION", help="For the new side (repeatable)."
        ),
    ] = None,
    against_catalogue: Annotated[
        str | None,
        typer.Option("--against-catalogue", metavar="PATH", help="For the new side."),
    ] = None,
    pack: PackNames = None,
    without_pack: WithoutPack = None,
    rules_from: RulesFrom = None,
    house_rules: HouseRules = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
    width: Width = None,
) -> None:
    """Tell what a change does: new fails, cures, margins, currents."""

    def action() -> int:
        from coordination.cli.compare import Shape, compare_files, with_its_seal
        from coordination.cli.handed_over import request_of

        both = pack or []
        before = request_of(
            old, catalogue, [*both, *(edition or ())], without_pack, rules_from, house_rules
        )
        after = request_of(
            new or old, against_catalogue or catalogue, [*both, *(against_edition or ())],
            without_pack, rules_from, house_rules,
        )  # fmt: skip
        if new is None and before == after:
            before = with_its_seal(before)
        return compare_files(before, after, threshold, Shape(form.value, all_, width))

    run(action, debug)
