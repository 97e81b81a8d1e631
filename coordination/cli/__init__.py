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
        from coordination.cli.app import build

        build(sys.argv[1:])(prog_name="fusewright")
    except KeyboardInterrupt:
        sys.exit(130)
