"""Draws the curves: bands and lines, told apart by hatch and line style, not by colour alone."""

from __future__ import annotations

from collections.abc import Iterator

from matplotlib.axes import Axes
from matplotlib.patches import Polygon

from coordination.charts.chart import LONGEST, SHORTEST, Chart, Curve, Point
from coordination.charts.labels import Label
from coordination.charts.thinning import thinned

#: Dark colours that differ in lightness as well; hatches that stay apart when copied.
COLOURS = ("#003f5c", "#a23b00", "#2b6a2b", "#6a2b73", "#7a5c00", "#333333")
HATCHES = ("////", "\\\\\\\\", "....", "xxxx", "----", "++++")
WEIGHTS = (1.5, 1.0)
CABLE = "#555555"
CABLE_STYLES: tuple[tuple[int, tuple[float, ...]], ...] = (
    (0, (9.0, 2.0, 1.5, 2.0)), (0, (9.0, 2.0, 1.5, 2.0, 1.5, 2.0)), (0, (5.0, 1.5, 1.0, 1.5)),
    (0, (12.0, 3.0)), (0, (3.0, 1.0, 3.0, 1.0, 1.0, 1.0)),
)  # fmt: skip


def draw_curves(axes: Axes, chart: Chart) -> Iterator[Label]:
    """Draw all curves; gives their labels, which stand at the curves."""
    devices = [curve for curve in chart.curves if curve.kind == "device"]
    cables = [curve for curve in chart.curves if curve.kind == "cable"]
    for number, curve in enumerate(devices):
        colour = COLOURS[number % len(COLOURS)]
        _device(axes, curve, colour, HATCHES[number % len(HATCHES)], WEIGHTS[number // 6 % 2])
        yield Label("\n".join(curve.label), colour, tuple(_anchors(curve)), bold=True)
    for number, curve in enumerate(cables):
        style = CABLE_STYLES[number % len(CABLE_STYLES)]
        for stroke in curve.slowest:
            _line(axes, stroke.points, CABLE, ":" if stroke.physics else style, 1.1)
        yield Label("\n".join(curve.label), CABLE, tuple(_anchors(curve)))


def _device(axes: Axes, curve: Curve, colour: str, hatch: str, weight: float) -> None:
    for outline in curve.band:
        shape = Polygon(
            thinned(outline), closed=True, facecolor=(*_rgb(colour), 0.10),
            edgecolor=(*_rgb(colour), 0.55), hatch=hatch, linewidth=0.0, zorder=2,
        )  # fmt: skip
        axes.add_patch(shape)
    for stroke in (*curve.fastest, *curve.slowest):
        _line(axes, stroke.points, colour, "--" if stroke.physics else "-", weight)
    gates, ends = curve.gates, curve.open_ends
    if gates:
        axes.plot(
            *zip(*gates, strict=True), linestyle="", marker="o", markersize=3.2,
            markerfacecolor="white", markeredgecolor=colour, markeredgewidth=0.9, zorder=4,
        )  # fmt: skip
    if ends:
        axes.plot(*zip(*ends, strict=True), linestyle="", marker="|", markersize=8,
                  markeredgecolor=colour, markeredgewidth=1.4, zorder=4)  # fmt: skip


def _line(
    axes: Axes,
    points: tuple[Point, ...],
    colour: str,
    style: str | tuple[int, tuple[float, ...]],
    weight: float,
) -> None:
    axes.plot(*zip(*thinned(points), strict=True), color=colour, linestyle=style, linewidth=weight,
              zorder=3, solid_capstyle="butt")  # fmt: skip


def _rgb(colour: str) -> tuple[float, float, float]:
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return red, green, blue


def _anchors(curve: Curve) -> Iterator[Point]:
    """Where a label may point: along both sides of the band."""
    for stroke in (*curve.slowest, *curve.fastest):
        yield from (point for point in stroke.points if SHORTEST < point[1] < LONGEST)
