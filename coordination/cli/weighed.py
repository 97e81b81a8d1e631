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
