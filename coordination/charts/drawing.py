"""Draws a chart on one sheet, A4 landscape, and gives the bytes of a file.

The only module that knows matplotlib. Figures are made without its window machinery, from its
built-in defaults whatever the user's own settings are, so that the same chart gives the same file.
"""

from __future__ import annotations

import re
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from typing import Any

import matplotlib
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.collections import LineCollection
from matplotlib.figure import Figure
from matplotlib.ticker import FixedLocator, FuncFormatter, NullLocator

from coordination.charts.chart import LONGEST, SHORTEST, Chart
from coordination.charts.frame import current_limits, current_ticks, current_words, time_words
from coordination.charts.labelling import place_labels
from coordination.charts.marking import draw_marks, draw_spots
from coordination.charts.shapes import draw_curves
from coordination.charts.title_block import draw_title_block

#: A4 landscape [in]; points of a picture made of dots, per inch.
SIZE, DOTS = (297 / 25.4, 210 / 25.4), 150
#: Where the curves stand on the sheet: left, bottom, width, height, as shares of it.
FRAME = (0.065, 0.215, 0.915, 0.725)

_SETTINGS: dict[str, Any] = {
    "svg.fonttype": "none",
    "svg.hashsalt": "fusewright",
    "pdf.fonttype": 42,
    "font.family": ["DejaVu Sans"],
    "font.size": 8.0,
    "text.hinting": "none",
    "hatch.linewidth": 0.45,
    "axes.linewidth": 0.8,
    "text.usetex": False,
    "text.parse_math": False,
    "path.simplify": False,
}
_METADATA: dict[str, dict[str, Any]] = {
    "svg": {"Date": None, "Creator": "Fusewright"},
    "pdf": {"CreationDate": None, "ModDate": None, "Creator": "Fusewright", "Producer": None},
    "png": {"Software": None},
}
FORMATS = tuple(_METADATA)

#: In SVG: what fills a band, and the ground of a hatching.
_BAND = re.compile(rb"fill: url\(#(\w+)\); fill-opacity: ([\d.]+)")
_GROUND = re.compile(rb'<pattern id="(\w+)"[^>]*>\s*<rect [^>]*fill="#\w+"')


def picture(chart: Chart, format: str) -> bytes:
    """The chart as a file of one of `FORMATS`. Raises KeyError for another."""
    metadata = _METADATA[format]
    with settings():
        figure = sheet(chart)
        out = BytesIO()
        figure.savefig(out, format=format, dpi=DOTS, metadata=metadata)
    return _hatched(out.getvalue()) if format == "svg" else out.getvalue()


def _hatched(svg: bytes) -> bytes:
    """The picture with bands as faint as they are meant and their hatching as it is.

    The library lays a band's faintness over its hatching too, and nobody sees it.
    """
    faint: dict[bytes, bytes] = dict(_BAND.findall(svg))
    plain = _BAND.sub(rb"fill: url(#\1)", svg)

    def ground(found: re.Match[bytes]) -> bytes:
        return b'%s fill-opacity="%s"' % (found[0], faint.get(found[1], b"1"))

    return _GROUND.sub(ground, plain)


@contextmanager
def settings() -> Iterator[None]:
    """The drawing library as it comes, with ours on top, and quiet about missing signs."""
    with matplotlib.rc_context(), warnings.catch_warnings():
        # Signs that the font lacks are boxes in a picture; in SVG and PDF the text is there.
        warnings.filterwarnings("ignore", message=".*[Gg]lyph.*")
        matplotlib.rcdefaults()
        parameters: Any = matplotlib.rcParams
        parameters.update(_SETTINGS)
        yield


def sheet(chart: Chart) -> Figure:
    """The figure with everything on it."""
    figure = Figure(figsize=SIZE, dpi=72)
    FigureCanvasAgg(figure)
    axes = figure.add_axes(FRAME)
    _axes(axes, chart)
    labels = [*draw_curves(axes, chart), *draw_marks(axes, chart), *draw_spots(axes, chart)]
    place_labels(axes, labels)
    draw_title_block(figure, chart)
    return figure


def _between(axes: Axes) -> LineCollection:
    """Thin lines between the decades of time; one artist, where ticks would be 56 of them."""
    times = [each * 10.0**power for power in range(-3, 4) for each in range(2, 10)]
    lines = [((0.0, time), (1.0, time)) for time in times]
    across = axes.get_yaxis_transform()
    return LineCollection(lines, colors="0.92", linewidths=0.35, zorder=0.4, transform=across)


def _axes(axes: Axes, chart: Chart) -> None:
    axes.set_xscale("log")
    axes.set_yscale("log")
    low, high = current_limits(chart)
    axes.set_xlim(low, high)
    axes.set_ylim(SHORTEST, LONGEST)
    axes.xaxis.set_major_locator(FixedLocator(current_ticks(low, high)))
    axes.xaxis.set_minor_locator(NullLocator())
    axes.yaxis.set_major_locator(FixedLocator([10.0**power for power in range(-3, 5)]))
    axes.xaxis.set_major_formatter(FuncFormatter(lambda value, _: current_words(value)))
    axes.yaxis.set_major_formatter(FuncFormatter(lambda value, _: time_words(value)))
    axes.yaxis.set_minor_locator(NullLocator())
    axes.grid(True, which="major", color="0.8", linewidth=0.5)
    axes.add_collection(_between(axes), autolim=False)
    axes.set_axisbelow(True)
    axes.set_xlabel("current, A")
    axes.set_ylabel("time, s")
    # With a height of its own the title is not kept clear of ticks, of which there are none above.
    axes.set_title(chart.title, loc="left", fontsize=11, fontweight="bold", pad=6, y=1.0)
