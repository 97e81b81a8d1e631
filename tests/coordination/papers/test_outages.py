"""What goes dark, on the page."""

from __future__ import annotations

import re

from .conftest import SYSTEMS, page_of

TENDER = SYSTEMS / "tender-planted.yaml"


def section(language: str) -> str:
    page = page_of(TENDER, ("outages",), language)
    start = page.index('<section id="outages"')
    return page[start : page.index("</section>", start)]


def rows(text: str) -> list[list[str]]:
    """The texts of every row's cells; HTML lets rows and cells go without an end tag."""
    return [
        [re.sub(r"<[^>]+>", "", cell).replace("\u00a0", " ").strip()
         for cell in re.split(r"<t[dh]\b[^>]*>", row)[1:]]
        for row in re.split(r"<tr\b[^>]*>", text)[1:]
    ]  # fmt: skip


def test_an_events_row_names_who_goes_dark() -> None:
    found = rows(section("en"))
    # By the drawing: each fuse of its own; always on ahead of the house switch.
    assert ["bilge 1 fuse opens", "all", "dark: bilge pump 1"] in found
    assert ["by a battery", "pack bus, always-on bus, bilge pump 1, bilge pump 2, starter"] in found
    assert any(each[0] == "bilge pump 2" and "bilge 2 fuse opens" in each[1] for each in found)


def test_in_german_no_english_is_left_but_names() -> None:
    text = section("de")
    assert ["bilge 1 fuse öffnet", "alle", "ohne Strom: bilge pump 1"] in rows(text)
    for english in (" opens", " trips", " is lost", " more", "starved", "lang="):
        assert english not in text
