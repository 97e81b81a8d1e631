"""The bench beside this file, its record, and both with pieces changed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from coordination.checking import Request, judged, prepare
from coordination.measured import Outcome, read_measured, with_measured

HERE = Path(__file__).parent
Change = tuple[str, str]


@pytest.fixture
def changed(tmp_path: Path) -> Callable[..., Path]:
    """A file of this folder with pieces of its text changed, each there exactly once."""

    def change(name: str, *changes: Change) -> Path:
        text = (HERE / name).read_text("utf-8")
        for old, new in changes:
            assert text.count(old) == 1, old
            text = text.replace(old, new)
        path = tmp_path / name
        path.write_text(text, "utf-8")
        return path

    return change


@pytest.fixture
def outcome(changed: Callable[..., Path]) -> Callable[..., Outcome]:
    """What a changed record says of a changed bench."""

    def judge(*changes: Change, bench: tuple[Change, ...] = ()) -> Outcome:
        request = Request(str(changed("bench.yaml", *bench)))
        system, packs = prepare(request)
        record = read_measured(str(changed("record.yaml", *changes)), system)
        return with_measured(system, record, lambda each: judged(request, each, packs))

    return judge


@pytest.fixture
def compared(outcome: Callable[..., Outcome]) -> Callable[..., Any]:
    """One comparison of a changed record."""

    def find(what: str, *changes: Change, **more: Any) -> Any:
        (found,) = (each for each in outcome(*changes, **more).compared if each.what == what)
        return found

    return find
