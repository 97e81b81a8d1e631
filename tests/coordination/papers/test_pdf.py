"""The page as PDF: complete, numbered, with heads of tables on every page and bookmarks."""

from __future__ import annotations

import re
import shutil
import subprocess
import zlib
from contextlib import suppress
from pathlib import Path

import pytest

from .conftest import LAUNCH, Page

try:
    from coordination.papers.pdf import printed
except (ImportError, OSError) as error:
    pytest.skip(f"no PDF here: {error}", allow_module_level=True)

pytestmark = pytest.mark.filterwarnings("default")
CHAPTERS = ("diagram", "points", "schedules", "commissioning", "basis")


@pytest.fixture(scope="module")
def pdf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    from .conftest import page_of

    path = tmp_path_factory.mktemp("pdf") / "report.pdf"
    path.write_bytes(printed(page_of(LAUNCH, CHAPTERS)))
    return path


def _run(program: str, *arguments: object) -> str:
    if shutil.which(program) is None:
        pytest.skip(f"no {program} here: the PDF was not looked into (apt install poppler-utils)")
    done = subprocess.run([program, *map(str, arguments)], capture_output=True, check=True)
    return done.stdout.decode("utf-8", "replace")


def _pages(pdf: Path) -> list[str]:
    return _run("pdftotext", "-layout", pdf, "-").split("\f")[:-1]


def test_every_page_bears_its_number_and_the_system(pdf: Path) -> None:
    pages = _pages(pdf)
    assert len(pages) > 3
    for number, text in enumerate(pages, start=1):
        assert re.search(rf"\b{number} / {len(pages)}\b", text), number
        assert "Chart launch" in text


def test_a_table_that_goes_on_repeats_its_heads(pdf: Path) -> None:
    pages = [text for text in _pages(pdf) if "torque wrench" in text or "initials" in text]
    assert len([text for text in pages if re.search(r"test\s+subject\s+method", text)]) > 1


def test_there_are_bookmarks(pdf: Path) -> None:
    streams = re.findall(rb"stream\r?\n(.*?)\r?\nendstream", pdf.read_bytes(), re.DOTALL)
    plain = b""
    for stream in streams:
        with suppress(zlib.error):
            plain += zlib.decompress(stream)
    assert b"/Outlines" in plain
    # A bookmark a chapter at least: those asked for, verdict, limits and cautions.
    assert plain.count(b"/Title") >= len(CHAPTERS) + 3


def test_the_cautions_come_along(pdf: Path) -> None:
    text = " ".join(" ".join(_pages(pdf)).split())
    assert "Disconnect and isolate every source before working on the system." in text


def test_drawings_are_drawn(pdf: Path, tmp_path: Path) -> None:
    """A page of the diagram has ink well beyond its frame."""
    _run("pdftoppm", "-r", "40", "-gray", pdf, tmp_path / "page")
    pages = sorted(tmp_path.glob("page-*.pgm"))
    assert len(pages) == len(_pages(pdf))
    dark = [sum(value < 200 for value in each.read_bytes()[20:]) for each in pages]
    assert min(dark) > 100


def test_a_page_cannot_make_it_fetch(page: Page, caplog: pytest.LogCaptureFixture) -> None:
    whole = page(LAUNCH, ("limits",)).replace(
        "<main",
        '<img src="http://192.0.2.1/x.png" alt=""><img src="file:///etc/passwd" alt=""><main',
    )
    assert printed(whole).startswith(b"%PDF-")
    assert "the page asks for http://192.0.2.1/x.png" in caplog.text
    assert "the page asks for file:///etc/passwd" in caplog.text
