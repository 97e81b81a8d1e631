"""Draws a chart on one sheet, A4 landscape, and gives the bytes of a file.

Knows matplotlib, as its neighbours that draw parts of the sheet do; its files are `pictures`'.
"""

from __future__ import annotations

import re
from functools import partial

from matplotlib.axes import Axes
from matplotlib.collections import LineCollection
from matplotlib.figure import Figure
from matplotlib.ticker import FixedLocator, FuncFormatter, NullLocator

from coordination.charts.chart import LONGEST, SHORTEST, Chart
from coordination.charts.frame import current_limits, current_ticks, current_words, time_words
from coordination.charts.labelling import place_labels
from coordination.charts.marking import draw_marks, draw_spots
from coordination.charts.shapes import draw_curves
from coordination.charts.title_block import draw_title_block
from coordination.languages.language import ENGLISH, Language, plain
from coordination.pictures import blank, saved, settings

#: A4 landscape [in]; points of a picture made of dots, per inch.
SIZE, DOTS = (297 / 25.4, 210 / 25.4), 150
#: Where the curves stand on the sheet: left, bottom, width, height, as shares of it.
FRAME = (0.065, 0.215, 0.915, 0.725)

#: In SVG: what fills a band, and the ground of a hatching.
_BAND = re.compile(rb"fill: url\(#(\w+)\); fill-opacity: ([\d.]+)")
_GROUND = re.compile(rb'<pattern id="(\w+)"[^>]*>\s*<rect [^>]*fill="#\w+"')


def picture(chart: Chart, format: str, words: Language = ENGLISH) -> bytes:
    """The chart as a file of one of `pictures.FORMATS`. Raises KeyError for another.

    words -- the language of the signs and axes; `translated.in_language` has that of the chart
    """
    with settings():
        content = saved(sheet(chart, words), format, DOTS)
    return _hatched(content) if format == "svg" else content


def _hatched(svg: bytes) -> bytes:
    """The picture with bands as faint as they are meant and their hatching as it is.

    The library lays a band's faintness over its hatching too, and nobody sees it.
    """
    faint: dict[bytes, bytes] = dict(_BAND.findall(svg))
    plain = _BAND.sub(rb"fill: url(#\1)", svg)

    def ground(found: re.Match[bytes]) -> bytes:
        return b'%s fill-opacity="%s"' % (found[0], faint.get(found[1], b"1"))

    return _GROUND.sub(ground, plain)


def sheet(chart: Chart, words: Language = ENGLISH) -> Figure:
    """The figure with everything on it."""
    figure = blank(*SIZE, 72)
    axes = figure.add_axes(FRAME)
    _axes(axes, chart, words)
    labels = [*draw_curves(axes, chart), *draw_marks(axes, chart), *draw_spots(axes, chart)]
    place_labels(axes, labels)
    draw_title_block(figure, chart, words)
    return figure


def _between(axes: Axes) -> LineCollection:
    """Thin lines between the decades of time; one artist, where ticks would be 56 of them."""
    times = [each * 10.0**power for power in range(-3, 4) for each in range(2, 10)]
    lines = [((0.0, time), (1.0, time)) for time in times]
    across = axes.get_yaxis_transform()
    return LineCollection(lines, colors="0.92", linewidths=0.35, zorder=0.4, transform=across)


def _axes(axes: Axes, chart: Chart, words: Language) -> None:
    axes.set_xscale("log")
    axes.set_yscale("log")
    low, high = current_limits(chart)
    axes.set_xlim(low, high)
    axes.set_ylim(SHORTEST, LONGEST)
    axes.xaxis.set_major_locator(FixedLocator(current_ticks(low, high)))
    axes.xaxis.set_minor_locator(NullLocator())
    axes.yaxis.set_major_locator(FixedLocator([10.0**power for power in range(-3, 5)]))
    said = partial(_said, words)
    axes.xaxis.set_major_formatter(FuncFormatter(lambda value, _: said(current_words(value))))
    axes.yaxis.set_major_formatter(FuncFormatter(lambda value, _: said(time_words(value))))
    axes.yaxis.set_minor_locator(NullLocator())
    axes.grid(True, which="major", color="0.8", linewidth=0.5)
    axes.add_collection(_between(axes), autolim=False)
    axes.set_axisbelow(True)
    axes.set_xlabel(said("current, A"))
    axes.set_ylabel(said("time, s"))
    # With a height of its own the title is not kept clear of ticks, of which there are none above.
    axes.set_title(chart.title, loc="left", fontsize=11, fontweight="bold", pad=6, y=1.0)


def _said(words: Language, english: str) -> str:
    return plain(words.say(english))
