"""Turns what can go wrong in a command into a message and an exit status, without a traceback."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from typing import NoReturn

UNUSABLE = 2
INTERRUPTED = 130


def run(action: Callable[[], int], debug: bool) -> NoReturn:
    """Do the command and end with its status. Raises SystemExit always."""
    sys.exit(status_of(action, debug))


def status_of(action: Callable[[], int], debug: bool) -> int:
    """Do the command; gives its exit status. `debug` shows where an error arose."""
    try:
        return action()
    except KeyboardInterrupt:
        tell("interrupted")
        return INTERRUPTED
    except Exception as error:
        if debug:
            _traceback(error)
        tell(_words(error))
        return UNUSABLE


def _words(error: Exception) -> str:
    from catalogue.errors import CatalogueError
    from coordination.errors import BadInput, FusewrightError
    from coordination.report.wording import clean

    if isinstance(error, BadInput):
        from coordination.report.input_errors import input_errors

        return input_errors(error.problems).rstrip("\n")
    if isinstance(error, (FusewrightError, CatalogueError)):
        return clean(str(error))
    if isinstance(error, OSError):
        return clean(f"{error.filename or 'fusewright'}: {error.strerror or error}")
    return clean(
        f"fusewright has a fault of its own ({type(error).__name__}: {error}); no verdict. "
        "Run it again with --debug and report what it prints."
    )


def _traceback(error: Exception) -> None:
    import traceback

    tell("".join(traceback.format_exception(error)).rstrip("\n"))


def tell(message: str) -> None:
    """Say it on standard error, which may be closed or know few signs."""
    if sys.stderr is None or not message:
        return
    try:
        encoding = sys.stderr.encoding or "ascii"
        sys.stderr.write(message.encode(encoding, "backslashreplace").decode(encoding) + os.linesep)
        sys.stderr.flush()
    except OSError:
        pass
