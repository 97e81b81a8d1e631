"""Folders of invented jobs, some planted to go wrong in every way a job can."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from coordination.checking.local import Local
from coordination.cli.starter import STARTER
from coordination.fleet import Setting, look, recheck
from coordination.fleet.engines import LocalEngine
from coordination.fleet.setting import Order, Outcome, setting_for

#: Rules that do to the process what the system's name asks for.
PLANTED = '''
import os, signal
from coordination.rules import Card, COMMON_PRACTICE, passed, rule

CARD = Card(name="planted", title="t", why="w", wrong="w", right="r", severity="paperwork",
            source=COMMON_PRACTICE)

@rule(CARD, each="source")
def planted(source, study):
    name = study.system.name
    if name == "raises":
        raise ValueError("planted")
    if name == "loops":
        while True:
            pass
    if name == "hangs":
        sum(range(10**13))
    if name == "dies":
        os.kill(os.getpid(), signal.SIGKILL)
    if name == "leaves":
        os._exit(0)
    if name == "prints":
        os.write(1, b"into the answers")
    return passed("nothing planted")
'''


class Jobs:
    """A folder of jobs, each the starter under another name."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder / "jobs"
        self.folder.mkdir()
        self.rules = folder / "planted.py"
        self.rules.write_text(PLANTED, "utf-8")
        self.text = STARTER.read_text("utf-8")
        name = next(line for line in self.text.splitlines() if line.startswith("system: "))
        self._named = name

    def add(self, name: str, old: str = "", new: str = "") -> Path:
        """The starter under a name, with `old` replaced by `new`."""
        assert old in self.text
        text = self.text.replace(self._named, f"system: {name}")
        path = self.folder / f"{name}.yaml"
        path.write_text(text.replace(old, new) if old else text, "utf-8")
        return path

    def failing(self, name: str) -> Path:
        """Its main fuse breaks 1 kA only."""
        rating = "- {voltage: 125 V, current: 20 kA}"
        return self.add(name, rating, rating.replace("20 kA", "1 kA"))

    def broken(self, name: str) -> Path:
        """A unit is missing."""
        return self.add(name, "nominal_voltage: 12 V ", "nominal_voltage: 12 ")


@pytest.fixture
def jobs(tmp_path: Path) -> Jobs:
    """An empty folder, to be filled."""
    return Jobs(tmp_path)


Run = Callable[..., list[Outcome]]


@pytest.fixture
def setting(jobs: Jobs) -> Setting:
    """Of a run with the planted rules."""
    return setting_for(None, (), Local((str(jobs.rules),)), limit=20.0)


@pytest.fixture
def run(jobs: Jobs, setting: Setting) -> Iterator[Run]:
    """Runs the jobs by two processes of this machine."""
    engine = LocalEngine(2)

    def go(
        used: Setting = setting, keep: Callable[[Outcome], None] = lambda _: None
    ) -> list[Outcome]:
        found = look([str(jobs.folder)]).paths
        orders = (Order(number, path) for number, path in enumerate(found))
        return list(recheck(orders, len(found), used, engine, keep))

    yield go
    engine.close()
