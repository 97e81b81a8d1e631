"""Systems studied once, and their one-line diagrams as marks."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from coordination.checking import Request, findings_of
from coordination.diagram.drawn import Page, pages_of

SYSTEMS = Path(__file__).parents[3] / "fixtures" / "systems"
RING = Path(__file__).with_name("ring.yaml")
DEMOS = tuple(sorted(SYSTEMS.glob("*-planted.yaml")) + sorted(SYSTEMS.glob("*-cured.yaml")))
SMALL = (*sorted((SYSTEMS / "small").glob("*.yaml")), SYSTEMS / "bench-60.yaml", RING)
WHEN = date(2026, 3, 1)


@cache
def findings(path: Path) -> Any:
    """The findings of a file, in all its conditions."""
    return findings_of(Request(str(path)))


@cache
def pages(path: Path, condition: str = "normal", links: bool = False) -> tuple[Page, ...]:
    """Its diagram."""
    return pages_of(findings(path), WHEN, condition, links=links)


@pytest.fixture
def written(tmp_path: Path) -> Callable[[str], tuple[Page, ...]]:
    """Draws a system that is given as text."""

    def draw(text: str) -> tuple[Page, ...]:
        path = tmp_path / "system.yaml"
        path.write_text(text, encoding="utf-8")
        return pages_of(findings_of(Request(str(path))), WHEN)

    return draw
