"""The distributions that `pyproject.toml` asks for, with the oldest version it allows of each."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[2]
_REQUIREMENT = re.compile(r"([\w.-]+)(?:\[[\w,-]+\])?\s*(.*)")
_LEAST = re.compile(r">=\s*([\d.]+)")
#: Extras that a user installs; the rest is for who works on Fusewright.
FOR_USERS = ("charts", "papers", "sheets", "pdf", "fleet")


class Requirement(NamedTuple):
    """A distribution; `least`: the oldest version allowed, "" if there is none."""

    name: str
    least: str


def requirements(extras: tuple[str, ...] = FOR_USERS) -> tuple[Requirement, ...]:
    """What is asked for to run, and by the extras named; each once, ours left out."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    optional = project["optional-dependencies"]
    asked = list(project["dependencies"])
    for name in extras:
        asked += optional.get(name, ())
    return tuple(dict.fromkeys(_parsed(asked)))


def _parsed(asked: list[str]) -> Iterator[Requirement]:
    for each in asked:
        found = _REQUIREMENT.fullmatch(each)
        assert found, each
        if found[1] != "fusewright":
            least = _LEAST.search(found[2])
            yield Requirement(found[1], least[1] if least else "")
