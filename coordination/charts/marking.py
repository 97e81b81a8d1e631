"""Draws load and fault currents, and the moments that must open nothing."""

from __future__ import annotations

from collections.abc import Iterator

from matplotlib.axes import Axes

from coordination.charts.chart import LONGEST, SHORTEST, Chart
from coordination.charts.labels import Label

INK = "#000000"
_STYLES = {"load": (0, (1.0, 2.0)), "fault": (0, (7.0, 3.0))}
#: Heights [s] at which an upright label may stand.
_HEIGHTS = tuple(SHORTEST * (LONGEST / SHORTEST) ** (step / 40) for step in range(1, 40))


def draw_marks(axes: Axes, chart: Chart) -> Iterator[Label]:
    """Lines from top to bottom; gives their labels."""
    for mark in chart.marks:
        style = _STYLES[mark.kind]
        axes.axvline(mark.current, color=INK, linestyle=style, linewidth=0.9, zorder=1.5)
        anchors = tuple((mark.current, height) for height in _HEIGHTS)
        yield Label(mark.label, INK, anchors, upright=True)


def draw_spots(axes: Axes, chart: Chart) -> Iterator[Label]:
    """A diamond for a current for a time; a triangle on the edge where only its heat is meant."""
    for spot in chart.spots:
        axes.plot([spot.current], [spot.time], linestyle="", marker="^" if spot.heat else "D",
                  markersize=7 if spot.heat else 5.5, markerfacecolor="white",
                  markeredgecolor=INK, markeredgewidth=1.2, zorder=5, clip_on=False)  # fmt: skip
        yield Label(spot.label, INK, ((spot.current, spot.time),))
