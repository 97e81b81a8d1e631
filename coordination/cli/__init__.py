"""The command line: takes the arguments apart, calls the stages, prints what the report made.

Holds no rule, no sum and no wording of verdicts. Everything heavy is imported by the command that
needs it.
"""

from __future__ import annotations

import gc
import sys


def main() -> None:
    """Run `fusewright` with the arguments of the process; ends it with the exit status."""
    # A run is short and makes few cycles; looking for them costs a tenth of it.
    gc.disable()
    try:
        _run(sys.argv[1:])
    except KeyboardInterrupt:
        sys.exit(130)


def _run(arguments: list[str]) -> None:
    from coordination.cli.quick import usual_check

    if (asked := usual_check(arguments)) is not None:
        from coordination.cli.check import check_file
        from coordination.cli.guard import run

        run(lambda: check_file(asked), asked.debug)
    from coordination.cli.app import build

    build(arguments)(arguments, prog_name="fusewright")
