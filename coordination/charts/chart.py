"""What a time-current chart shows: plain data, before anything is drawn.

Currents in A, times in s. Knows no study and no drawing library.
"""

from __future__ import annotations

from typing import Literal

from catalogue.frozen import dataclass

#: Times [s] that the chart spans.
SHORTEST, LONGEST = 1e-3, 1e4

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through (current, time) points; `physics`: continued by physics, not stated."""

    points: tuple[Point, ...]
    physics: bool = False


@dataclass(frozen=True, slots=True)
class Curve:
    """A device's band, one side of it, or what a cable bears.

    label    -- its lines of text; the first names it
    fastest, slowest -- the sides of the band, in pieces; either may be empty
    band     -- outlines of what lies between both sides
    open_ends -- ends of the sides beyond which nothing is promised, (current, time)
    gates    -- points of a standard, between which nothing but monotony is promised
    """

    label: tuple[str, ...]
    kind: Literal["device", "cable"]
    fastest: tuple[Stroke, ...] = ()
    slowest: tuple[Stroke, ...] = ()
    band: tuple[tuple[Point, ...], ...] = ()
    open_ends: tuple[Point, ...] = ()
    gates: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True)
class Mark:
    """A current that is there as long as it likes: a line from top to bottom."""

    label: str
    kind: Literal["load", "fault"]
    current: float


@dataclass(frozen=True, slots=True)
class Spot:
    """A current for a time that must open nothing; `heat`: only its I²t is meant."""

    label: str
    current: float
    time: float
    heat: bool = False


@dataclass(frozen=True, slots=True)
class Chart:
    """One sheet.

    facts -- (label, text) of the title block; notes -- what the reader must know beside the curves
    """

    title: str
    facts: tuple[tuple[str, str], ...]
    curves: tuple[Curve, ...]
    marks: tuple[Mark, ...]
    spots: tuple[Spot, ...]
    notes: tuple[str, ...]
