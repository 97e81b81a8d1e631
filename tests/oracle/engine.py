"""The engine as a black box: a system file in, the answer of `check --format json` out."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Any


def check(text: str, rules: tuple[str, ...] = ()) -> dict[str, Any]:
    """The answer to a system file, by some rules or all. Raises BadInput."""
    from coordination.checking import Request, findings_of
    from coordination.report.answer import answer
    from coordination.report.view import View

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "system.yaml"
        path.write_text(text, encoding="utf-8")
        return dict(answer(findings_of(Request(file=str(path), rules=rules)), View()))


#: A rule that costs nothing, where only the studies' numbers are wanted.
NUMBERS_ONLY = ("parts-reviewed",)
