"""The axes of a chart: how far they reach and what stands at their ticks."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor, log10

from coordination.charts.chart import LONGEST, SHORTEST, Chart, Curve

#: Largest span of the current axis beyond what must be seen (ratio).
MARGIN = 1.35
#: How far into a curve that begins beyond all marks the axis reaches (ratio).
INTO = 3.0
_STEPS = (1.0, 2.0, 5.0)
#: Spans of the axis [decades] up to which every step has a tick, and beyond which only decades.
_ALL_STEPS, _DECADES = 4.5, 7.0


def current_limits(chart: Chart) -> tuple[float, float]:
    """Lowest and highest current of the axis [A]: all that is bounded or marked, and some room."""
    seen = sorted(_seen(chart))
    if not seen:
        return 1.0, 1e4
    low, high = seen[0] / MARGIN, seen[-1] * MARGIN
    if high / low < 30.0:
        low, high = low / 2, high * 2
    return low, high


def _seen(chart: Chart) -> Iterator[float]:
    marks = [mark.current for mark in chart.marks]
    yield from marks
    yield from (spot.current for spot in chart.spots)
    top = max(marks, default=0.0) * 1.15
    for curve in chart.curves:
        if curve.kind == "device":
            yield from _of_device(curve, top)


def _of_device(curve: Curve, top: float) -> Iterator[float]:
    """Where a device's curve begins, a way into it, and how far it goes up to `top` [A]."""
    inside = [
        current
        for stroke in (*curve.fastest, *curve.slowest)
        for current, time in stroke.points
        if SHORTEST <= time <= LONGEST
    ]
    if inside:
        yield min(inside)
        yield min(max(inside), min(inside) * INTO)
        yield max((each for each in inside if not top or each <= top), default=min(inside))


def current_ticks(low: float, high: float) -> list[float]:
    """1-2-5 steps within the limits, fewer on a long axis."""
    span = log10(high / low)
    steps = _STEPS if span <= _ALL_STEPS else (1.0, 3.0) if span <= _DECADES else (1.0,)
    powers = range(floor(log10(low)), floor(log10(high)) + 1)
    ticks = [step * 10.0**power for power in powers for step in steps]
    return [tick for tick in ticks if low <= tick <= high]


def current_words(value: float) -> str:
    """ "20 k" for 20,000 A; the axis says A."""
    return f"{value / 1000:g} k" if value >= 1000 else f"{value:g}"


def time_words(value: float) -> str:
    """Seconds without powers of ten."""
    return f"{value:g}" if value < 1000 else f"{value / 1000:g},000"
