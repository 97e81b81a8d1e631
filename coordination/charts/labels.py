"""A label before it has found its place."""

from __future__ import annotations

from catalogue.frozen import dataclass
from coordination.charts.chart import Point


@dataclass(frozen=True, slots=True)
class Label:
    """Text that must stand at what it names.

    anchors -- (current, time) points, any of which it may stand at
    upright -- written from bottom to top, along a line that stands there
    """

    text: str
    colour: str
    anchors: tuple[Point, ...]
    bold: bool = False
    upright: bool = False
