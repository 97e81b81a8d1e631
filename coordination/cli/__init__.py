"""The command line: takes the arguments apart, calls the stages, prints what the report made.

Holds no rule, no sum and no wording of verdicts. Everything heavy is imported by the command that
needs it.
"""

from __future__ import annotations

import gc
import os
import sys
from typing import NoReturn

from coordination.cli.quick import Check, Report, usual


def main() -> None:
    """Run `fusewright` with the arguments of the process; ends it with the exit status."""
    # A run is short and makes few cycles; looking for them costs a tenth of it.
    gc.disable()
    arguments = sys.argv[1:]
    try:
        if (asked := usual(arguments)) is not None:
            _do(asked)
        from coordination.cli.app import build

        build(arguments)(arguments, prog_name="fusewright")
    except KeyboardInterrupt:
        sys.exit(130)


def _do(asked: Check | Report) -> NoReturn:
    """The usual command; leaves at once: taking a large study apart takes time for nothing."""
    from coordination.cli.guard import status_of

    # Both streams were flushed by those who wrote to them.
    os._exit(status_of(lambda: _done(asked), asked.debug))


def _done(asked: Check | Report) -> int:
    if isinstance(asked, Report):
        from coordination.cli.report import write_report

        return write_report(asked)
    from coordination.cli.check import check_file

    return check_file(asked)
