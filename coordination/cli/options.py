"""What the commands take: their options and arguments, with the help of each."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

import typer


class Format(StrEnum):
    """How `check` prints its answer."""

    text = "text"
    json = "json"
    markdown = "markdown"
    junit = "junit"
    sarif = "sarif"


class TableFormat(StrEnum):
    """How `pairs` and `compare` print their tables."""

    text = "text"
    json = "json"
    markdown = "markdown"


class PlainFormat(StrEnum):
    """How commands print an answer that has no table of its own."""

    text = "text"
    json = "json"


class Shown(StrEnum):
    """Verdicts that can be picked out of an answer."""

    FAIL = "fail"
    UNPROVEN = "unproven"
    NOTE = "note"
    PASS = "pass"
    WAIVED = "waived"


class LineFormat(StrEnum):
    """How `recheck` prints its lines."""

    text = "text"
    jsonl = "jsonl"


class EngineName(StrEnum):
    """Where `recheck` has the jobs checked."""

    local = "local"
    dask = "dask"


class SchemaOf(StrEnum):
    """What a JSON Schema is published of."""

    system = "system"
    answer = "answer"
    seal = "seal"
    margins = "margins"
    comparison = "comparison"
    energy = "energy"
    shore = "shore"
    measured = "measured"
    outage = "outage"
    parts = "parts"
    uses = "uses"
    doubts = "doubts"
    history = "history"
    imports = "import"
    recheck = "recheck"
    suggest = "suggest"


File = Annotated[str, typer.Argument(metavar="FILE", help="The system file (YAML).")]
CataloguePath = Annotated[
    str | None,
    typer.Option(
        "--catalogue",
        metavar="PATH",
        help="A shop's parts, which shadow the generic ones (or set FUSEWRIGHT_CATALOGUE).",
    ),
]
ConditionName = Annotated[
    str | None, typer.Option("--condition", metavar="NAME", help="Study this condition only.")
]
PackNames = Annotated[
    list[str] | None,
    typer.Option("--pack", metavar="NAME", help="Run this pack as well (repeatable)."),
]
WithoutPack = Annotated[
    list[str] | None,
    typer.Option("--without-pack", metavar="NAME", help="Go on without this pack (repeatable)."),
]
RulesFrom = Annotated[
    list[str] | None,
    typer.Option(
        "--rules-from", metavar="FILE.py", help="Run the rules of this file too (repeatable)."
    ),
]
HouseRules = Annotated[
    list[str] | None,
    typer.Option(
        "--house-rules", metavar="FILE", help="Hold it to these house rules too (repeatable)."
    ),
]
RuleNames = Annotated[
    list[str] | None,
    typer.Option("--rule", metavar="NAME", help="Run this rule only (repeatable)."),
]
LanguageCode = Annotated[
    str, typer.Option("--language", metavar="CODE", help="Language of what is written: en, de.")
]
Debug = Annotated[bool, typer.Option("--debug", help="Show where an error arose.")]
Width = Annotated[
    int | None,
    typer.Option(
        "--width", min=40, max=400, help="Columns of the text (default: the terminal's, else 80)."
    ),
]
