"""What a one-line diagram is handed over as: sheets of SVG, to be shown inside a page or alone."""

from __future__ import annotations

from typing import NamedTuple


class Sheet(NamedTuple):
    """One sheet.

    title -- what it shows, for people: "One-line diagram, sheet 1 of 2"
    svg   -- an `<svg>` element without XML declaration, to be put into a page as it is. It takes
             the page's text colour, and the page's `--fusewright-...` colours where it sets them.
             Its symbols bear `anchors.DEVICE`, its points `anchors.POINT` as ids
    width, height -- natural size [CSS px, 1/96 in]; below it the text becomes hard to read
    """

    title: str
    svg: str
    width: float
    height: float
