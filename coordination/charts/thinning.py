"""Leaves out the points of a line that nobody would miss on a sheet with logarithmic axes."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot, log10

from coordination.charts.chart import Point

#: How far a point that is left out may lie beside the line [decades]; a tenth of a point of type.
BESIDE = 5e-4


def thinned(points: Sequence[Point], beside: float = BESIDE) -> tuple[Point, ...]:
    """The points that the line needs: its ends, and each that lies off the line of those kept.

    points -- current [A] and time [s], both above 0
    beside -- how far one that is left out may lie off [decades]
    Source: D. H. Douglas and T. K. Peucker, 1973, "Algorithms for the reduction of the number of
    points required to represent a digitized line or its caricature".
    """
    at = [(log10(current), log10(time)) for current, time in points]
    kept = {0, len(at) - 1} & set(range(len(at)))
    pieces = [(0, len(at) - 1)]
    while pieces:
        first, last = pieces.pop()
        furthest, off = _furthest(at, first, last)
        if off > beside:
            kept.add(furthest)
            pieces += [(first, furthest), (furthest, last)]
    return tuple(points[number] for number in sorted(kept))


def _furthest(at: Sequence[Point], first: int, last: int) -> tuple[int, float]:
    """Which point between two lies furthest off the way between them, and how far."""
    found, most = first, 0.0
    for number in range(first + 1, last):
        off = _off(at[number], at[first], at[last])
        if off > most:
            found, most = number, off
    return found, most


def _off(point: Point, start: Point, end: Point) -> float:
    """How far a point lies from the nearest place between two others."""
    wide, high = end[0] - start[0], end[1] - start[1]
    x, y = point[0] - start[0], point[1] - start[1]
    square = wide * wide + high * high
    share = min(max((x * wide + y * high) / square, 0.0), 1.0) if square else 0.0
    return hypot(x - share * wide, y - share * high)
