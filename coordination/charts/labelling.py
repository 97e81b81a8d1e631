"""Finds a free place for every label beside what it names.

Works in points on the sheet: tries places around each anchor, counts what they would cover, and
takes the cheapest; a second and a third round mend what the first ones could not know.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np
from matplotlib.axes import Axes
from matplotlib.text import Text

from coordination.charts.ink import Box, Ink
from coordination.charts.labels import Label

SIZE = 7.0
#: Distances of a label from its anchor [pt], and how many anchors are tried.
DISTANCES, ANCHORS = (5.0, 12.0, 22.0, 36.0, 54.0, 76.0), 36
ROUNDS = 3
#: Places of a label whose leader is looked at as well.
CLOSER = 400
#: Costs: of a square point over another label, of a cell of a line or of a band
#: covered, of a point of distance, of a cell of a line crossed by the leader.
OVER_LABEL, OVER_LINE, OVER_BAND, FAR, CROSSED = 60.0, 6.0, 0.15, 0.35, 2.0
OUTSIDE = 1e9
#: Room kept free around a label [pt].
PAD = 3.0

Points = Any


class _Places(NamedTuple):
    """Places for a label: boxes (n × left, bottom, right, top) and the anchors they belong to
    (n × x, y) [pt on the sheet].
    """

    boxes: Points
    anchors: Points

    def at(self, numbers: Any) -> _Places:
        """Those of some numbers."""
        return _Places(self.boxes[numbers], self.anchors[numbers])

    @property
    def ends(self) -> Points:
        """The point of each box that is nearest to its anchor (n × x, y)."""
        return np.clip(self.anchors, self.boxes[:, :2], self.boxes[:, 2:])


def place_labels(axes: Axes, labels: Sequence[Label]) -> None:
    """Write every label at the best place that is left."""
    frame = axes.get_window_extent()
    room: Box = (frame.x0 + 2, frame.y0 + 2, frame.x1 - 2, frame.y1 - 2)
    ink = Ink(axes)
    sizes = [_size(axes, label) for label in labels]
    choices = [
        _cheapest(_candidates(axes, label, size, room), label, ink)
        for label, size in zip(labels, sizes, strict=True)
    ]
    own = [_own_costs(places, label, ink) for places, label in zip(choices, labels, strict=True)]
    counts = [len(places.boxes) for places in choices]
    chosen: dict[int, int] = {}
    for _ in range(ROUNDS):
        for number in sorted((n for n in range(len(labels)) if counts[n]), key=counts.__getitem__):
            others = [choices[n].boxes[place] for n, place in chosen.items() if n != number]
            costs = own[number] + _covered(choices[number].boxes, others) * OVER_LABEL
            chosen[number] = int(np.argmin(costs))
    for number, place in chosen.items():
        _write(axes, labels[number], choices[number].at([place]))


def _size(axes: Axes, label: Label) -> tuple[float, float]:
    """Width and height of the text as it will stand [pt]."""
    figure: Any = axes.get_figure(root=True)
    text = _text(axes, label, 0.0, 0.0)
    extent = text.get_window_extent(figure.canvas.get_renderer())
    text.remove()
    return extent.width + 2 * PAD, extent.height + 2 * PAD


def _candidates(axes: Axes, label: Label, size: tuple[float, float], room: Box) -> _Places:
    """Places around the anchors that lie within the frame."""
    shown = axes.transData.transform(np.asarray(label.anchors, dtype=float).reshape(-1, 2))
    low, high = np.asarray(room[:2]), np.asarray(room[2:])
    inside = shown[np.all((shown >= low - 4) & (shown <= high + 4), axis=1)]
    tried = inside[:: max(1, len(inside) // ANCHORS)]
    corners = _upright(*size) if label.upright else _around(*size)
    left_bottom = (tried[:, None, :] + corners[None, :, :]).reshape(-1, 2)
    boxes = np.hstack([left_bottom, left_bottom + size])
    within = np.all((boxes[:, :2] >= low) & (boxes[:, 2:] <= high), axis=1)
    return _Places(boxes, np.repeat(tried, len(corners), axis=0)).at(within)


def _upright(width: float, height: float) -> Points:
    """Lower left corners of boxes to both sides of a point (2 × x, y)."""
    return np.asarray([(1.0, -height / 2), (-1.0 - width, -height / 2)])


def _around(width: float, height: float) -> Points:
    """Lower left corners of boxes around a point (n × x, y)."""
    corners: list[tuple[float, float]] = []
    for far in DISTANCES:
        slant = far * 0.7
        corners += [
            (far, -height / 2),
            (-far - width, -height / 2),
            (-width / 2, far),
            (-width / 2, -far - height),
            (slant, slant),
            (-slant - width, slant),
            (slant, -slant - height),
            (-slant - width, -slant - height),
        ]
    return np.asarray(corners)


def _cheapest(places: _Places, label: Label, ink: Ink) -> _Places:
    """The places worth a closer look, by what is quickly told of them."""
    if len(places.boxes) <= CLOSER:
        return places
    order = np.argsort(_quick_costs(places, label, ink), kind="stable")
    return places.at(np.sort(order[:CLOSER]))


def _quick_costs(places: _Places, label: Label, ink: Ink) -> Points:
    """What each place covers, and how far it is."""
    lines, bands = ink.covered(places.boxes)
    covered = lines * OVER_LINE + bands * OVER_BAND
    if label.upright:
        return covered
    return covered + np.hypot(*(places.ends - places.anchors).T) * FAR


def _own_costs(places: _Places, label: Label, ink: Ink) -> Points:
    """What each place costs whatever the other labels do."""
    costs = _quick_costs(places, label, ink)
    if label.upright or not len(costs):
        return costs
    return costs + ink.along(places.anchors, places.ends) * CROSSED


def _covered(boxes: Points, others: Sequence[Points]) -> Points:
    """Area [pt²] that each box shares with other labels."""
    if not others:
        return np.zeros(len(boxes))
    taken = np.asarray(others)
    highs = np.minimum(boxes[:, None, 2:], taken[None, :, 2:])
    lows = np.maximum(boxes[:, None, :2], taken[None, :, :2])
    return np.clip(highs - lows, 0, None).prod(axis=2).sum(axis=1)


def _write(axes: Axes, label: Label, place: _Places) -> None:
    back = axes.transData.inverted()
    box = place.boxes.reshape(2, 2)
    x, y = back.transform(box.mean(axis=0))
    text = _text(axes, label, float(x), float(y))
    text.set_bbox({"facecolor": "white", "edgecolor": "none", "alpha": 0.82, "pad": 0.8})
    if label.upright:
        return
    (x_end, y_end), (x_start, y_start) = back.transform([place.ends[0], place.anchors[0]])
    axes.plot([x_start, x_end], [y_start, y_end], color=label.colour, linewidth=0.6, zorder=6)


def _text(axes: Axes, label: Label, x: float, y: float) -> Text:
    return axes.text(
        x, y, label.text, color=label.colour, fontsize=SIZE, ha="center", va="center",
        rotation=90 if label.upright else 0, fontweight="bold" if label.bold else "normal",
        zorder=7, parse_math=False, linespacing=1.1,
    )  # fmt: skip
