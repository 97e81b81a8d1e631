"""From findings to the sheets of a one-line diagram, as SVG."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from coordination.diagram.drawn import Page, pages_of
from coordination.diagram.sheet import Sheet
from coordination.diagram.svg import FONTS, css, svg_marks, xml
from coordination.languages.language import ENGLISH, Language

if TYPE_CHECKING:
    from coordination.rules.finding import Findings

#: Between sheets in one file [px].
_BETWEEN = 24.0


def one_line(
    findings: Findings, when: date, condition: str | None = None, *,
    links: bool = False, words: Language = ENGLISH,
) -> tuple[Sheet, ...]:
    """The diagram in one condition: the one asked for, else "normal", else the first studied.

    when  -- the date in the title block
    links -- whether a symbol with a fail, an unproven or a waived finding links to
             `anchors.FINDING` of its name, which the page then must have
    words -- the language of what is written on it
    Raises KeyError if that condition was not studied.
    """
    pages = pages_of(findings, when, condition, links=links, words=words)
    return tuple(
        Sheet(page.title, sheet_svg(page, number, links=links), page.width, page.height)
        for number, page in enumerate(pages, 1)
    )


def sheet_svg(page: Page, number: int, *, links: bool = False) -> str:
    """One sheet as an `<svg>` element; with links it is a group of them, else one picture."""
    width, height = f"{page.width:.2f}", f"{page.height:.2f}"
    named = f"one-line-{number}-title one-line-{number}-about"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="fw-sheet" '
        f'role="{"group" if links else "img"}" aria-labelledby="{named}" '
        f'width="{width}" height="{height}" viewBox="0 0 {width} {height}" '
        f'font-family="{FONTS}" fill="currentColor">'
        f'<title id="one-line-{number}-title">{xml(page.title)}</title>'
        f'<desc id="one-line-{number}-about">{xml(page.description)}</desc>'
        f"<style>{css()}</style>{svg_marks(page.marks)}</svg>"
    )


def svg_file(pages: Sequence[Page]) -> bytes:
    """All sheets below each other in one file of its own, on white or dark as the reader has it."""
    width = max(page.width for page in pages)
    height = sum(page.height for page in pages) + _BETWEEN * (len(pages) - 1)
    inner, y = [], 0.0
    for number, page in enumerate(pages, 1):
        inner.append(f'<svg y="{y:.2f}"' + sheet_svg(page, number).removeprefix("<svg"))
        y += page.height + _BETWEEN
    size = f'width="{width:.2f}" height="{height:.2f}" viewBox="0 0 {width:.2f} {height:.2f}"'
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} color="#111">'
        "<style>:root{color:#111;background:#fff}"
        "@media (prefers-color-scheme:dark){:root{color:#e6e6e6;background:#141414}}</style>"
        f"{''.join(inner)}</svg>\n"
    ).encode()
