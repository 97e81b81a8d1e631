"""One battery, one fuse, one cable, one load, with pieces of the file changed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from coordination.checking import Request, judged, prepare
from coordination.margins import Told, margins_told
from coordination.margins.survey import Scope

FILE = Path(__file__).parent / "one_battery.yaml"


@pytest.fixture
def changed(tmp_path: Path) -> Callable[..., Path]:
    """The file with pieces of its text changed, each there exactly once."""

    def change(*changes: tuple[str, str]) -> Path:
        text = FILE.read_text("utf-8")
        for old, new in changes:
            assert text.count(old) == 1, old
            text = text.replace(old, new)
        path = tmp_path / "system.yaml"
        path.write_text(text, "utf-8")
        return path

    return change


@pytest.fixture
def told() -> Callable[..., Told]:
    """The margins of a system file, or of one subject of it."""

    def tell(path: Path = FILE, *scope: Any, inputs: tuple[str, ...] = (), **more: Any) -> Told:
        request = Request(str(path))
        system, packs = prepare(request)
        which = Scope(*scope)._replace(wanted=inputs)
        return margins_told(
            system, packs, lambda each, some: judged(request, each, some), which, **more
        )

    return tell


@pytest.fixture
def flip(told: Callable[..., Told]) -> Callable[..., Any]:
    """The nearest flip of a rule about a subject by an input, upwards or downwards."""

    def find(path: Path, datum: str, rule: str, subject: str, *, upward: bool) -> Any:
        margins = told(path, subject, rule, inputs=(datum,)).margins.margins
        found = [
            each
            for margin in margins
            if margin.input.datum == datum
            for each in margin.flips
            if each.upward is upward
        ]
        assert found[0].subject == subject
        assert found[0].rule.endswith("/" + rule)
        return found[0]

    return find
