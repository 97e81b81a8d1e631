"""The page as a person opens it: in a browser, on desk and phone, dark, and printed."""

from __future__ import annotations

from pathlib import Path

import pytest

from coordination.report.anchors import DEVICE, FINDING, anchor

from .browser import Browser
from .conftest import SYSTEMS, Page

LOOKS = Path(__file__).with_name("looks.js").read_text(encoding="utf-8")
SCROLL = "document.scrollingElement.scrollWidth"

#: Room for text on A4 on its side and upright, at 96 px an inch, without the page's margins.
BROAD, UPRIGHT = 1016, 680

WAYS = {
    "desk": (1280, {}),
    "phone": (390, {}),
    "dark desk": (1280, {"dark": True}),
    "dark phone": (390, {"dark": True}),
    "printed": (BROAD, {"print_": True, "dark": True}),
}


def _opened(
    browser: Browser, page: Page, folder: Path, system: str, way: str, language: str = "en"
) -> None:
    path = folder / "report.html"
    path.write_text(page(SYSTEMS / f"{system}.yaml", language=language), encoding="utf-8")
    width, colours = WAYS[way]
    browser.open(path, width, **colours)


@pytest.mark.parametrize(
    ("system", "way"),
    [*(("tender-planted", way) for way in WAYS), ("van-cured", "desk"), ("van-cured", "phone")],
)
def test_nothing_is_in_the_way(
    browser: Browser, page: Page, tmp_path: Path, system: str, way: str
) -> None:
    _opened(browser, page, tmp_path, system, way)
    assert browser.run(SCROLL) <= WAYS[way][0]
    assert browser.run(LOOKS) == []
    asked = [each["request"]["url"] for each in browser.of("Network.requestWillBeSent")]
    assert asked == [(tmp_path / "report.html").as_uri()]
    loud = browser.of("Log.entryAdded", "Runtime.consoleAPICalled", "Runtime.exceptionThrown")
    assert loud == []


def test_a_long_path_breaks_where_it_must(browser: Browser, page: Page, tmp_path: Path) -> None:
    folder = tmp_path / ("a-folder-of-which-the-name-is-long" * 4)
    folder.mkdir()
    text = (SYSTEMS / "van-cured.yaml").read_text(encoding="utf-8")
    (folder / "van.yaml").write_text(text.replace("Bracken", "Bracken" * 6), encoding="utf-8")
    path = tmp_path / "report.html"
    path.write_text(page(folder / "van.yaml"), encoding="utf-8")
    browser.open(path, 390)
    assert browser.run(SCROLL) <= 390


def test_the_other_language_fits_as_well(browser: Browser, page: Page, tmp_path: Path) -> None:
    for way in ("desk", "phone"):
        _opened(browser, page, tmp_path, "van-planted", way, "de")
        assert browser.run(SCROLL) <= WAYS[way][0]
        assert browser.run(LOOKS) == []
        assert browser.run("document.documentElement.lang") == "de"


def test_the_looks_would_be_complained_of(browser: Browser, tmp_path: Path) -> None:
    path = tmp_path / "bad.html"
    path.write_text(
        "<!doctype html><title>x</title><h1>One</h1><h3>Three</h3><a href='#gone'>away</a>"
        "<table><tr><th>no scope</th></tr></table><img src='data:,'>"
        "<p style='color:#999;background:#fff'>faint</p><p id=a></p><p id=a></p>"
    )
    browser.open(path, 390)
    complaints = " ".join(browser.run(LOOKS))
    for what in (
        "no language", "level is skipped", "leads nowhere", "without caption", "without scope",
        "picture without words", "contrast 2.85", "an id twice", "not one main",
    ):  # fmt: skip
        assert what in complaints, what


def test_a_finding_leads_to_its_device_and_the_device_back(
    browser: Browser, page: Page, tmp_path: Path
) -> None:
    _opened(browser, page, tmp_path, "tender-planted", "desk")
    finding, device = anchor(FINDING, "port fuse"), anchor(DEVICE, "port fuse")
    assert browser.run(f"document.querySelectorAll('#{finding} a[href=\"#{device}\"]').length") == 1
    assert browser.run(f"!!document.getElementById('{device}').closest('svg')")
    back = f"document.querySelectorAll('.diagram svg a[href=\"#{finding}\"]').length"
    assert browser.run(back) >= 1
    browser.run(f"document.querySelector('#{finding} a').click()")
    assert browser.run("location.hash") == f"#{device}"
    place = browser.run(f"document.getElementById('{device}').getBoundingClientRect().top")
    assert -50 <= place <= 900


def test_reasoning_folds_out_without_script(
    browser: Browser, page: Page, tmp_path: Path
) -> None:
    _opened(browser, page, tmp_path, "tender-planted", "phone")
    steps = "document.querySelector('details table').checkVisibility()"
    assert not browser.run(steps)
    browser.run("document.querySelector('details summary').click()")
    assert browser.run(steps)
    assert browser.run(SCROLL) <= 390


def test_print_shows_what_is_folded_and_is_light(
    browser: Browser, page: Page, tmp_path: Path
) -> None:
    _opened(browser, page, tmp_path, "tender-planted", "printed")
    assert browser.run("document.querySelector('details table').checkVisibility()")
    assert browser.run("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"


def test_wide_things_scroll_in_a_box_of_their_own(
    browser: Browser, page: Page, tmp_path: Path
) -> None:
    _opened(browser, page, tmp_path, "tender-planted", "phone")
    boxes = "[...document.querySelectorAll('.schedules .scroll')]"
    assert browser.run(f"{boxes}.filter(each => each.scrollWidth > each.clientWidth).length") > 0
    assert browser.run(f"{boxes}.every(each => each.getBoundingClientRect().right <= 390)")


def test_what_is_printed_upright_fits(browser: Browser, page: Page, tmp_path: Path) -> None:
    path = tmp_path / "report.html"
    path.write_text(page(SYSTEMS / "tender-planted.yaml"), encoding="utf-8")
    browser.open(path, UPRIGHT, print_=True)
    upright = "section:is(.verdict,.findings,.points,.labels,.passes,.basis,.limits,.cautions)"
    wide = f"[...document.querySelectorAll('main > {upright} *')]"
    beyond = f"each => each.getBoundingClientRect().right > {UPRIGHT}"
    assert browser.run(f"{wide}.filter({beyond}).length") == 0
