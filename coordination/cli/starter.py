"""`fusewright new`: a commented system file to start from."""

from __future__ import annotations

from pathlib import Path

import coordination
from coordination.cli.output import emit
from coordination.errors import BadInput, Problem

STARTER = Path(coordination.__file__).with_name("starter.yaml")


def write_starter(file: str) -> int:
    """Write the starter; gives 0. Raises BadInput if there is such a file; OSError."""
    text = STARTER.read_bytes()
    try:
        with open(file, "xb") as stream:
            stream.write(text)
    except FileExistsError:
        what = "there is such a file already; it was left as it is"
        raise BadInput((Problem(file, 0, 0, what),)) from None
    emit(f"{file} is written. Try: fusewright check {file}\n")
    return 0
