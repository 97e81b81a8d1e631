"""Runs tests with the oldest versions allowed: `python -m tests.supply.lowest`.

Makes a virtual environment of its own in a temporary folder; fetches from the package index. With
no tests named it runs those that meet the libraries most; `tests` is the whole suite.
"""

from __future__ import annotations

import argparse
import subprocess
import sys
import tempfile
import venv
from pathlib import Path

from tests.supply.requirements import ROOT, requirements

USUAL = (
    "tests/catalogue", "tests/coordination/cli", "tests/coordination/reading",
    "tests/coordination/charts", "tests/coordination/diagram", "tests/coordination/papers",
    "tests/coordination/report", "tests/coordination/schedules", "tests/coordination/rules",
    "tests/test_demo_systems.py",
)  # fmt: skip
#: Old libraries meet new ones below them, and are told so; a user is not.
TOLERANT = ("-W", "ignore::DeprecationWarning")


def main() -> int:
    """The exit status of the tests."""
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("tests", nargs="*", default=USUAL)
    tests = arguments.parse_args().tests
    with tempfile.TemporaryDirectory() as folder:
        python = str(_environment(Path(folder)))
        _say([python, "-m", "pip", "list", "--format", "freeze"])
        command = [python, "-m", "pytest", *TOLERANT, *tests]
        return subprocess.run(command, cwd=ROOT, check=False).returncode


def _environment(folder: Path) -> Path:
    venv.create(folder, with_pip=True)
    python = folder / "bin/python"
    pinned = folder / "lowest.txt"
    pins = (f"{each.name}=={each.least}" for each in requirements() if each.least)
    pinned.write_text("\n".join(pins) + "\n", "utf-8")
    _say([str(python), "-m", "pip", "install", "-q", "-c", str(pinned), "-e", f"{ROOT}[test]"])
    return python


def _say(command: list[str]) -> None:
    print("$", *command, flush=True)
    subprocess.run(command, check=True)


if __name__ == "__main__":
    sys.exit(main())
