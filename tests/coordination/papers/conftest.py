"""Pages of the demo systems, each made once, and a browser to open them in."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from datetime import date
from functools import lru_cache
from html.parser import HTMLParser
from pathlib import Path
from typing import NamedTuple

import pytest

from coordination.checking import Request, findings_of
from coordination.papers import Asked, report_page
from coordination.papers.sections import chosen_sections
from coordination.rules.finding import Findings

from . import browser as chromium

SYSTEMS = Path(__file__).parents[3] / "fixtures" / "systems"
LAUNCH = Path(__file__).parents[1] / "charts" / "launch.yaml"
WHEN = date(2026, 3, 1)


@lru_cache
def findings(path: Path) -> Findings:
    """What a check of a file finds."""
    return findings_of(Request(str(path)))


@lru_cache
def page_of(path: Path, sections: tuple[str, ...] = (), language: str = "en") -> str:
    """The page of a file."""
    return report_page(findings(path), Asked(chosen_sections(sections), language, WHEN))


Page = Callable[..., str]


@pytest.fixture
def page() -> Page:
    """Makes a page: path, sections, language."""
    return page_of


class Told(NamedTuple):
    """What a page says: its text without blanks that no line breaks at, and its elements."""

    text: str
    elements: tuple[tuple[str, dict[str, str]], ...]

    def ids(self) -> list[str]:
        """Every id, as often as it is given."""
        return [given["id"] for _, given in self.elements if "id" in given]


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.elements: list[tuple[str, dict[str, str]]] = []
        self._silent = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, {key: value or "" for key, value in attrs}))
        self._silent = tag in ("style", "script")

    def handle_endtag(self, tag: str) -> None:
        self._silent = self._silent and tag not in ("style", "script")

    def handle_data(self, data: str) -> None:
        if not self._silent:
            self.texts.append(data)


def told(page: str) -> Told:
    """A page as a reader program takes it."""
    reader = _Reader()
    reader.feed(page)
    text = re.sub(r"\s+", " ", " ".join(reader.texts).replace("\u00a0", " "))
    return Told(text, tuple(reader.elements))


@pytest.fixture(scope="session")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[chromium.Browser]:
    """The browser; tests that want it are skipped where there is none."""
    if chromium.PROGRAM is None:
        pytest.skip("no chromium here: the page was not opened in a browser (apt install chromium)")
    opened = chromium.Browser(tmp_path_factory.mktemp("browser"))
    yield opened
    opened.close()
