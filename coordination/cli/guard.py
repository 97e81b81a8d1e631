"""Turns what can go wrong in a command into a message and an exit status, without a traceback."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from typing import NoReturn

UNUSABLE = 2
INTERRUPTED = 130


def run(action: Callable[[], int], debug: bool) -> NoReturn:
    """Do the command and end with its status; `debug` shows where an error arose.

    Raises SystemExit always.
    """
    try:
        status = action()
    except KeyboardInterrupt:
        _tell("interrupted")
        status = INTERRUPTED
    except Exception as error:
        if debug:
            _traceback(error)
        _tell(_words(error))
        status = UNUSABLE
    sys.exit(status)


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

    _tell("".join(traceback.format_exception(error)).rstrip("\n"))


def _tell(message: str) -> None:
    """To standard error, which may be closed or know few signs."""
    if sys.stderr is None:
        return
    try:
        encoding = sys.stderr.encoding or "ascii"
        sys.stderr.write(message.encode(encoding, "backslashreplace").decode(encoding) + os.linesep)
        sys.stderr.flush()
    except OSError:
        pass
