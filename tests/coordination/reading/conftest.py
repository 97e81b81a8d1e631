"""A catalogue of two parts, and reading from a text."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from catalogue.near_miss import nearest
from catalogue.parts import BusbarPart, Fuse, Part
from coordination.errors import BadInput, Problem
from coordination.model import System
from coordination.reading import read_bytes

PARTS: dict[str, Part] = {
    "fuse-t-300": Fuse(id="fuse-t-300", kind="fuse", origin="generic"),
    "bar-30x5": BusbarPart(id="bar-30x5", kind="busbar", origin="generic"),
}


class TwoParts:
    """As much of a catalogue as reading asks for."""

    def get(self, part_id: str) -> Part | None:
        return PARTS.get(part_id)

    def near(self, part_id: str, kind: str) -> str:
        return nearest(part_id, [part.id for part in PARTS.values() if part.kind == kind])


def _system_of(content: str | bytes) -> System:
    data = content.encode() if isinstance(content, str) else content
    return read_bytes(data, "boat.yaml", TwoParts())


def _problems_of(content: str | bytes) -> list[str]:
    try:
        _system_of(content)
    except BadInput as error:
        return [_in_words(problem) for problem in error.problems]
    return []


def _in_words(problem: Problem) -> str:
    """A problem on one line, without the file."""
    allowed = f"; allowed: {problem.allowed}" if problem.allowed else ""
    near = f"; did you mean {problem.near_miss!r}?" if problem.near_miss else ""
    return f"{problem.line}:{problem.column}: {problem.what}{allowed}{near}"


@pytest.fixture(scope="session")
def system_of() -> Callable[[str | bytes], System]:
    """The system in a text; raises BadInput."""
    return _system_of


@pytest.fixture(scope="session")
def problems_of() -> Callable[[str | bytes], list[str]]:
    """Everything wrong with a text, each on one line as the data files write it."""
    return _problems_of


@pytest.fixture(scope="session")
def good() -> str:
    """A file that uses every feature."""
    return (Path(__file__).parent / "good.yaml").read_text(encoding="utf-8")
