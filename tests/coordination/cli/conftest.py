"""Runs the command line inside this process, or as a process of its own where that matters."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

from coordination.cli.app import build
from coordination.cli.starter import STARTER

COMMAND = (sys.executable, "-c", "from coordination.cli import main; main()")
CHECKOUT = Path(__file__).parents[3]


class Ended(NamedTuple):
    """How a command ended and what it printed."""

    status: int
    out: str
    err: str


Run = Callable[..., Ended]


@pytest.fixture
def fusewright(capsys: pytest.CaptureFixture[str]) -> Run:
    """The command line in this process."""

    def run(*arguments: object) -> Ended:
        words = [str(each) for each in arguments]
        with pytest.raises(SystemExit) as ended:
            build(words)(words, prog_name="fusewright")
        printed = capsys.readouterr()
        return Ended(int(ended.value.code or 0), printed.out, printed.err)

    return run


@pytest.fixture
def process() -> Run:
    """The command line as a process; `environment` is added to this one's."""

    def run(*arguments: object, **environment: str) -> Ended:
        done = subprocess.run(
            [*COMMAND, *map(str, arguments)],
            env=os.environ | environment,
            capture_output=True,
            check=False,
        )
        return Ended(done.returncode, done.stdout.decode(), done.stderr.decode())

    return run


RATING = "{voltage: 125 V, current: 20 kA}"


class Systems:
    """The starter, whole or spoilt on purpose."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.text = STARTER.read_text(encoding="utf-8")

    def write(self, name: str, old: str = "", new: str = "") -> Path:
        """The starter with every `old` replaced by `new`, which must be there."""
        assert old in self.text
        path = self.folder / name
        path.write_text(self.text.replace(old, new) if old else self.text, encoding="utf-8")
        return path

    def good(self) -> Path:
        """Checks clean."""
        return self.write("good.yaml")

    def failing(self) -> Path:
        """Its main fuse breaks 1 kA only; the battery can feed 13.6 V / 2.5 mΩ = 5.4 kA."""
        return self.write("failing.yaml", f"- {RATING}", "- {voltage: 125 V, current: 1 kA}")

    def unproven(self) -> Path:
        """What its main fuse breaks is not stated."""
        lines = self.text.splitlines(keepends=True)
        rating = next(number for number, line in enumerate(lines) if f"- {RATING}" in line)
        assert "interrupt_ratings:" in lines[rating - 1]
        path = self.folder / "unproven.yaml"
        path.write_text("".join(lines[: rating - 1] + lines[rating + 1 :]), encoding="utf-8")
        return path

    def broken(self) -> Path:
        """A unit is missing."""
        return self.write("broken.yaml", "nominal_voltage: 12 V ", "nominal_voltage: 12 ")


@pytest.fixture
def systems(tmp_path: Path) -> Systems:
    """System files of every exit status."""
    return Systems(tmp_path)
