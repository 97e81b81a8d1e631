"""Writes `.ci/lock.txt`, the versions that CI installs: `python -m tests.supply.lock`.

Makes a virtual environment of its own with everything for users and developers, the newest that
`pyproject.toml` allows.
"""

from __future__ import annotations

import subprocess
import tempfile
import venv
from pathlib import Path

from tests.supply.requirements import FOR_USERS, ROOT

LOCK = ROOT / ".ci/lock.txt"
HEAD = "# Versions for CI, as a constraint of pip. Made by: python -m tests.supply.lock\n"


def frozen(python: Path) -> str:
    """What an environment has installed, ours left out, a version a line."""
    command = [str(python), "-m", "pip", "freeze", "--exclude", "fusewright"]
    done = subprocess.run(command, check=True, capture_output=True, text=True)
    return HEAD + done.stdout


def main() -> None:
    """Install and write."""
    with tempfile.TemporaryDirectory() as folder:
        venv.create(folder, with_pip=True)
        python = Path(folder, "bin/python")
        extras = ",".join(("dev", *FOR_USERS))
        command = [str(python), "-m", "pip", "install", "-q", f"{ROOT}[{extras}]"]
        subprocess.run(command, check=True)
        LOCK.write_text(frozen(python), "utf-8")


if __name__ == "__main__":
    main()
