"""Schedules of the bench beside this file, and of systems that are changed for a test."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from coordination.checking import Request, findings_of
from coordination.rules.finding import Findings
from coordination.schedules import Schedule, schedule_of

BENCH = Path(__file__).with_name("bench.yaml")
MADE = date(2026, 3, 5)
Cells = Mapping[str, str]


@cache
def _found(path: Path) -> Findings:
    return findings_of(Request(str(path)))


@pytest.fixture
def schedule() -> Callable[..., Schedule]:
    """One schedule of a system file."""
    return lambda name, path=BENCH: schedule_of(_found(path), name, MADE)


@pytest.fixture
def row(schedule: Callable[..., Schedule]) -> Callable[..., Cells]:
    """The cells of one row by column; `leading` are its first cells."""

    def find(name: str, *leading: str, path: Path = BENCH) -> Cells:
        made = schedule(name, path)
        heads = [column.name for column in made.columns]
        (found,) = (each for each in made.rows if each[: len(leading)] == leading)
        return dict(zip(heads, found, strict=True))

    return find


@pytest.fixture
def changed(tmp_path: Path) -> Callable[..., Path]:
    """The bench with pieces of its text changed, each there at least once."""

    def change(*changes: tuple[str, str]) -> Path:
        text = BENCH.read_text("utf-8")
        for old, new in changes:
            assert old in text
            text = text.replace(old, new)
        path = tmp_path / "changed.yaml"
        path.write_text(text, "utf-8")
        return path

    return change
