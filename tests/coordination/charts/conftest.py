"""The launch beside this file, studied, and charts of it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from coordination.charts import Chart, chart_of, path_of
from coordination.checking import Request, prepare, studies_of

LAUNCH = Path(__file__).with_name("launch.yaml")
WHEN = date(2026, 3, 1)


@pytest.fixture(scope="session")
def launch() -> dict[str, Any]:
    """A study for each condition of the launch."""
    request = Request(str(LAUNCH))
    system, packs = prepare(request)
    return dict(studies_of(request, system, packs))


@pytest.fixture
def study_of(tmp_path: Path) -> Callable[..., Any]:
    """The normal study of the launch with pieces of its text swapped."""

    def study(*swaps: tuple[str, str]) -> Any:
        text = LAUNCH.read_text(encoding="utf-8")
        for old, new in swaps:
            assert old in text, old
            text = text.replace(old, new)
        path = tmp_path / "changed.yaml"
        path.write_text(text, encoding="utf-8")
        request = Request(str(path))
        system, packs = prepare(request)
        return studies_of(request, system, packs)["normal"]

    return study


@pytest.fixture
def chart(launch: dict[str, Any]) -> Callable[..., Chart]:
    """The chart of the named path."""

    def draw(*names: str, condition: str = "normal") -> Chart:
        study = launch[condition]
        return chart_of(study, path_of(study, names), WHEN)

    return draw
