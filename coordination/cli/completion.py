"""`fusewright completion`: what a shell needs to complete commands, options and ids of parts."""

from __future__ import annotations

import os
from typing import Final

#: The variable by which a shell asks for completions.
VARIABLE: Final = "_FUSEWRIGHT_COMPLETE"
SHELLS: Final = ("bash", "zsh", "fish")


def asked() -> bool:
    """Whether a shell asks, and not a person."""
    return VARIABLE in os.environ


def make_ready() -> None:
    """Let typer know the shells."""
    from typer._completion_classes import completion_init

    completion_init()


def print_script(shell: str) -> int:
    """Print the script for a shell; gives 0. Raises BadInput for one that is not served."""
    from typer._completion_shared import get_completion_script

    from coordination.checking import known_word
    from coordination.cli.output import emit

    known_word("shell", shell, SHELLS, "fusewright completion")
    script = get_completion_script(prog_name="fusewright", complete_var=VARIABLE, shell=shell)
    emit(script + "\n")
    return 0
