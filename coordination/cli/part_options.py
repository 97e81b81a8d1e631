"""What the commands about the past and the safety of parts take beside `parts_options`."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

import typer


class HistoryFormat(StrEnum):
    """How the past of parts is printed."""

    text = "text"
    json = "json"


Debug = Annotated[bool, typer.Option("--debug", help="Show where an error arose.")]
Printed = Annotated[HistoryFormat, typer.Option("--format", help="How it is printed.")]
