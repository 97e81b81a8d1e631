"""Draws sheets as PNG or PDF. The only module here that knows matplotlib."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import Any

from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Circle, Polygon
from matplotlib.transforms import Affine2D, Transform

from coordination.diagram.drawn import Page
from coordination.diagram.ink import Disc, Group, Mark, Stroke, Words
from coordination.diagram.looks import FAINT, LOOKS, TEXT_COLOURS
from coordination.pictures import METADATA, blank, saved, settings

#: Dots of a PNG per CSS px; CSS px per inch; points per CSS px.
SHARPNESS, PER_INCH, POINTS = 2.0, 96.0, 0.75
_INK = "#111111"


def png(page: Page) -> bytes:
    """A sheet as PNG, `SHARPNESS` dots per px."""
    with settings():
        return saved(_figure(page, 1.0), "png", SHARPNESS * PER_INCH)


def pdf(pages: Sequence[Page]) -> bytes:
    """All sheets as one PDF, a page each, at their sizes on paper."""
    out = BytesIO()
    about = {**METADATA["pdf"], "Title": pages[0].title}
    with settings(), PdfPages(out, metadata=about) as file:
        for page in pages:
            file.savefig(_figure(page, page.scale))
    return out.getvalue()


def _figure(page: Page, scale: float) -> Figure:
    figure = blank(page.width * scale / PER_INCH, page.height * scale / PER_INCH, PER_INCH)
    upright = Affine2D().scale(1 / page.width, -1 / page.height).translate(0, 1)
    pen = _Pen(figure, upright + figure.transFigure, scale)
    for mark in page.marks:
        pen.draw(mark)
    return figure


class _Pen:
    def __init__(self, figure: Figure, transform: Transform, scale: float) -> None:
        self._figure, self._transform, self._scale = figure, transform, scale

    def draw(self, mark: Mark) -> None:
        """Put a mark, or the marks of a group, on the figure."""
        if isinstance(mark, Group):
            for each in mark.marks:
                self.draw(each)
        elif isinstance(mark, Words):
            self._words(mark)
        elif isinstance(mark, Disc):
            self._add(Circle((mark.x, mark.y), mark.radius, **self._looks(mark)))
        elif mark.closed:
            self._add(Polygon(mark.points, closed=True, **self._looks(mark)))
        else:
            self._line(mark)

    def _add(self, artist: Any) -> None:
        artist.set_transform(self._transform)
        self._figure.add_artist(artist)

    def _looks(self, mark: Stroke | Disc) -> dict[str, Any]:
        look = LOOKS[mark.style]
        colour = look.colour or _INK
        fill = colour if mark.filled else "none"
        width = look.width * POINTS * self._scale
        looks = {"edgecolor": colour, "facecolor": fill, "linewidth": width}
        if look.dashes:
            # The library counts dashes in line widths.
            looks["linestyle"] = (0, tuple(dash / look.width for dash in look.dashes))
        return looks

    def _line(self, stroke: Stroke) -> None:
        looks = self._looks(stroke)
        across, down = zip(*stroke.points, strict=True)
        line = Line2D(across, down, color=looks["edgecolor"], linewidth=looks["linewidth"])
        line.set_linestyle(looks.get("linestyle", "-"))
        line.set_solid_capstyle("butt")
        self._add(line)

    def _words(self, words: Words) -> None:
        aligned = {"start": "left", "middle": "center", "end": "right"}[words.anchor]
        self._figure.text(
            words.x, words.y, words.text,
            transform=self._transform,
            fontsize=words.size * POINTS * self._scale,
            color=TEXT_COLOURS.get(words.style, _INK),
            alpha=FAINT.get(words.style),
            fontweight="bold" if words.bold else "normal",
            fontstyle="italic" if words.italic else "normal",
            horizontalalignment=aligned, verticalalignment="baseline", parse_math=False,
        )  # fmt: skip
