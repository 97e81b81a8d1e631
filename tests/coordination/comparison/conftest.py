"""The bank beside this file, as it was and with pieces of its text changed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from coordination.checking import Request, findings_of
from coordination.comparison import Comparison, compared, side_of_run

BANK = Path(__file__).parent / "bank.yaml"
Change = tuple[str, str]


@pytest.fixture
def changed(tmp_path: Path) -> Callable[..., Path]:
    """The bank with pieces changed, each there exactly once."""

    def change(*changes: Change, name: str = "new.yaml") -> Path:
        text = BANK.read_text("utf-8")
        for old, new in changes:
            assert text.count(old) == 1, old
            text = text.replace(old, new)
        path = tmp_path / name
        path.write_text(text, "utf-8")
        return path

    return change


@pytest.fixture
def differs(changed: Callable[..., Path]) -> Callable[..., Comparison]:
    """What a changed bank differs in from the bank, or from another changed one."""

    def compare(*changes: Change, old: tuple[Change, ...] = (), **more: Any) -> Comparison:
        sides = [
            side_of_run(findings_of(Request(str(path))), "")
            for path in (changed(*old, name="old.yaml"), changed(*changes))
        ]
        return compared(sides[0], sides[1], **more)

    return compare
