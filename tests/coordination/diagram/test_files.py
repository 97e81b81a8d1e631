"""The files: whole, of the size they should have, the same each time."""

from __future__ import annotations

import re
import struct
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

from coordination.diagram import Sheet, one_line
from coordination.diagram.drawn import Page, pages_of
from coordination.diagram.one_line import svg_file
from coordination.diagram.picture import pdf, png

from .conftest import DEMOS, SYSTEMS, WHEN, findings, pages

SVG = "{http://www.w3.org/2000/svg}"
TENDER = SYSTEMS / "tender-planted.yaml"
#: ISO 216, mm to points.
A3 = (420 / 25.4 * 72, 297 / 25.4 * 72)


def paper(path: Path) -> tuple[Page, ...]:
    return pages_of(findings(path), WHEN, whole_paper=True)


def test_a_sheet_is_a_picture_with_a_title_and_a_description() -> None:
    (sheet,) = one_line(findings(TENDER), WHEN)
    assert isinstance(sheet, Sheet)
    root = ElementTree.fromstring(sheet.svg)
    assert root.attrib["role"] == "img"
    named = root.attrib["aria-labelledby"].split()
    told = {each.attrib.get("id"): each.text for each in root}
    assert told[named[0]] == "One-line diagram of Tidewrack, as drawn" == sheet.title
    assert "port fuse" in (told[named[1]] or "")
    assert [float(each) for each in root.attrib["viewBox"].split()] == pytest.approx(
        [0, 0, sheet.width, sheet.height], abs=0.01
    )


def test_links_lead_to_the_findings_of_what_is_marked() -> None:
    from coordination.report.anchors import DEVICE, FINDING, POINT, anchor

    (sheet,) = one_line(findings(TENDER), WHEN, links=True)
    root = ElementTree.fromstring(sheet.svg)
    assert root.attrib["role"] == "group"
    links = {each.attrib["href"] for each in root.iter(f"{SVG}a")}
    marked = {
        each.subject
        for each in findings(TENDER).findings
        if each.verdict in ("fail", "unproven", "waived")
    }
    assert links == {f"#{anchor(FINDING, subject)}" for subject in marked}
    where = {each.attrib.get("id"): each for each in root.iter(f"{SVG}g")}
    point = where[anchor(POINT, "main bus")]
    assert [each.text for each in point.iter(f"{SVG}text")] == ["13.7 / 6.73 kA"]
    ids = [each.attrib["id"] for each in root.iter() if "id" in each.attrib]
    assert len(ids) == len(set(ids))
    assert {anchor(DEVICE, "port fuse"), anchor(POINT, "main bus")} <= set(ids)


def test_the_title_block_says_what_it_must() -> None:
    words = " ".join(one_line(findings(TENDER), WHEN, "shore")[0].svg.split())
    for text in (
        ">Tidewrack, as drawn<", ">shore<", ">2026-03-01<", ">1 of 1<", "tender-planted.yaml",
        "Local codes, makers&#x27; instructions and licensed practice come first",
        ">double: live with every switch open that a person works<", ">fails<", ">unproven<",
    ):  # fmt: skip
        assert text in words, text
    assert "safe" not in words.lower().replace("unsafe", "")


def test_a_condition_that_was_not_studied_is_an_error() -> None:
    with pytest.raises(KeyError):
        one_line(findings(TENDER), WHEN, "on the moon")


def test_png_has_two_dots_per_px() -> None:
    (page,) = pages(TENDER)
    content = png(page)
    assert content[:8] == b"\x89PNG\r\n\x1a\n"
    width, height = struct.unpack(">II", content[16:24])
    assert width == pytest.approx(2 * page.width, abs=1)
    assert height == pytest.approx(2 * page.height, abs=1)
    assert content[-8:-4] == b"IEND"


def test_pdf_is_on_a3_with_a_page_a_sheet(large: Path) -> None:
    for path, count in ((TENDER, 1), (large, 4)):
        content = pdf(paper(path))
        assert content.startswith(b"%PDF-1.")
        assert content.rstrip().endswith(b"%%EOF")
        boxes = re.findall(rb"/MediaBox \[ ?0 0 ([\d.]+) ([\d.]+) ?\]", content)
        assert len(boxes) == count
        for box in boxes:
            assert [float(each) for each in box] == pytest.approx(A3, abs=0.1)


@pytest.fixture(scope="module")
def large(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Ninety circuits, some of them in rings."""
    path = tmp_path_factory.mktemp("large") / "large.yaml"
    maker = Path(__file__).parents[2] / "benchmarks" / "make_system.py"
    subprocess.run(
        [sys.executable, maker, "--circuits", "90", "--loops", "0.5", path], check=True
    )
    return path


def test_a_long_system_goes_over_several_sheets_with_references(large: Path) -> None:
    from coordination.diagram.ink import words_of

    from .geometry import data, over_each_other, struck_through

    sheets = pages(large)
    system = findings(large).system
    assert len(sheets) > 1
    assert max(page.width for page in sheets) <= 420 / 25.4 * 96
    shown = [name for page in sheets for name in data(page, "element")]
    assert sorted(shown) == sorted(
        [each.name for each in system.elements()]
        + [*system.sources, *system.busbars, *system.equipment]
    )
    texts = [{each.text for each in words_of(page.marks)} for page in sheets]
    for number, words in enumerate(texts, 1):
        assert f"{number} of {len(sheets)}" in words
    # each feed's chain stands at bar 0; the sheet it names has the bar, and names this one
    home = next(number for number, words in enumerate(texts, 1) if "to bar 3" in words)
    other = next(
        number
        for number, words in enumerate(texts, 1)
        if "from bar 0" in words and number != home
    )
    assert f"sheet {home}" in texts[other - 1]
    assert f"sheet {other}" in texts[home - 1]
    for page in sheets:
        assert over_each_other(page) == []
        assert struck_through(page) == []


def test_flags_lead_to_the_bars_they_name(large: Path) -> None:
    from coordination.report.anchors import DEVICE, anchor

    drawn = one_line(findings(large), WHEN, links=True)
    sheets = [ElementTree.fromstring(each.svg) for each in drawn]
    ids = {each.attrib["id"] for root in sheets for each in root.iter() if "id" in each.attrib}
    links = {each.attrib["href"][1:] for root in sheets for each in root.iter(f"{SVG}a")}
    bars = {anchor(DEVICE, f"bar {number}") for number in range(9)}
    assert bars <= links & ids
    assert all(each in ids or each.startswith("finding-") for each in links)


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_the_same_system_gives_the_same_file(path: Path) -> None:
    first = svg_file(pages_of(findings(path), WHEN))
    assert first == svg_file(pages_of(findings(path), WHEN))
    assert ElementTree.fromstring(first).tag == f"{SVG}svg"


@pytest.mark.parametrize("ending", ["svg", "png", "pdf"])
def test_another_process_gives_the_same_file(ending: str, tmp_path: Path) -> None:
    written = []
    for seed in ("1", "2"):
        out = tmp_path / f"{seed}.{ending}"
        ended = subprocess.run(
            [sys.executable, "-c", "from coordination.cli import main; main()",
             "draw", str(SYSTEMS / "bench-60.yaml"), "-o", str(out)],
            env={"PYTHONHASHSEED": seed, "SOURCE_DATE_EPOCH": "1772323200", "PATH": ""},
            capture_output=True, text=True, check=False,
        )  # fmt: skip
        assert (ended.returncode, ended.stderr) == (0, "")
        written.append(out.read_bytes())
    assert written[0] == written[1]
    assert b"2026-11" not in written[0]


def test_a_page_can_set_the_colours_and_who_knows_no_such_thing_sees_them_too() -> None:
    svg = one_line(findings(TENDER), WHEN)[0].svg
    assert "@supports (color:var(--any)){" in svg
    for name in ("live", "fail", "unproven", "waived"):
        assert f"var(--fusewright-{name}, #" in svg
    # the attributes beside the classes hold plain colours only
    assert not re.search(r'(?:stroke|fill)="[^"]*var', svg)
    assert set(re.findall(r'stroke="([^"]*)"', svg)) == {
        "currentColor", "#c2571a", "#d93025", "#8f6f00", "#3d74c7",
    }  # fmt: skip


@pytest.mark.parametrize("paper_colour", [1.0, 0.0056])
def test_every_colour_can_be_told_from_white_and_from_near_black(paper_colour: float) -> None:
    """WCAG 2.1, 1.4.11: contrast of 3 : 1, luminance as defined there; #121212 has 0.0056."""
    from coordination.diagram.looks import LOOKS

    for look in LOOKS.values():
        if look.colour:
            parts = [int(look.colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
            red, green, blue = (
                each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4
                for each in parts
            )
            luminance = 0.2126 * red + 0.7152 * green + 0.0722 * blue
            light, dark = max(luminance, paper_colour), min(luminance, paper_colour)
            assert (light + 0.05) / (dark + 0.05) >= 3.0, look
