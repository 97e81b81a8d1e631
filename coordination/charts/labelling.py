"""Finds a free place for every label beside what it names.

Works in points on the sheet: tries places around each anchor, counts what they would cover, and
takes the cheapest; a second and a third round mend what the first ones could not know.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.text import Text

from catalogue.frozen import dataclass
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


@dataclass(frozen=True, slots=True)
class _Place:
    """A box [pt on the sheet] and the anchor it belongs to."""

    box: Box
    anchor: tuple[float, float]


def place_labels(axes: Axes, labels: Sequence[Label]) -> None:
    """Write every label at the best place that is left."""
    frame = axes.get_window_extent()
    room: Box = (frame.x0 + 2, frame.y0 + 2, frame.x1 - 2, frame.y1 - 2)
    ink = Ink(axes)
    sizes = [_size(axes, label) for label in labels]
    choices = [
        _cheapest(list(_candidates(axes, label, size, room)), label, ink)
        for label, size in zip(labels, sizes, strict=True)
    ]
    own = [_own_costs(places, label, ink) for places, label in zip(choices, labels, strict=True)]
    chosen: dict[int, _Place] = {}
    order = sorted((n for n in range(len(labels)) if choices[n]), key=lambda n: len(choices[n]))
    for _ in range(ROUNDS):
        for number in order:
            others = [place.box for n, place in chosen.items() if n != number]
            costs = own[number] + _covered(choices[number], others) * OVER_LABEL
            chosen[number] = choices[number][int(np.argmin(costs))]
    for number, place in chosen.items():
        _write(axes, labels[number], place)


def _size(axes: Axes, label: Label) -> tuple[float, float]:
    """Width and height of the text as it will stand [pt]."""
    figure: Any = axes.get_figure(root=True)
    text = _text(axes, label, 0.0, 0.0)
    extent = text.get_window_extent(figure.canvas.get_renderer())
    text.remove()
    return extent.width + 2 * PAD, extent.height + 2 * PAD


def _candidates(
    axes: Axes, label: Label, size: tuple[float, float], room: Box
) -> Iterator[_Place]:
    """Places around the anchors that lie within the frame."""
    shown = axes.transData.transform(np.asarray(label.anchors, dtype=float).reshape(-1, 2))
    inside = [(x, y) for x, y in shown if room[0] - 4 <= x <= room[2] + 4 and
              room[1] - 4 <= y <= room[3] + 4]  # fmt: skip
    step = max(1, len(inside) // ANCHORS)
    width, height = size
    for x, y in inside[::step]:
        for left, bottom in _corners(x, y, width, height, upright=label.upright):
            box = (left, bottom, left + width, bottom + height)
            within = box[0] >= room[0] and box[1] >= room[1] and box[2] <= room[2]
            if within and box[3] <= room[3]:
                yield _Place(box, (float(x), float(y)))


def _corners(
    x: float, y: float, width: float, height: float, *, upright: bool
) -> Iterator[tuple[float, float]]:
    """Lower left corners of boxes around a point."""
    if upright:
        yield x + 1.0, y - height / 2
        yield x - 1.0 - width, y - height / 2
        return
    for far in DISTANCES:
        slant = far * 0.7
        yield x + far, y - height / 2
        yield x - far - width, y - height / 2
        yield x - width / 2, y + far
        yield x - width / 2, y - far - height
        yield x + slant, y + slant
        yield x - slant - width, y + slant
        yield x + slant, y - slant - height
        yield x - slant - width, y - slant - height


def _cheapest(places: list[_Place], label: Label, ink: Ink) -> list[_Place]:
    """The places worth a closer look, by what is quickly told of them."""
    if len(places) <= CLOSER:
        return places
    order = np.argsort(_quick_costs(places, label, ink), kind="stable")
    return [places[number] for number in sorted(order[:CLOSER])]


def _quick_costs(places: Sequence[_Place], label: Label, ink: Ink) -> Points:
    """What each place covers, and how far it is."""
    boxes = np.asarray([place.box for place in places])
    lines, bands = ink.covered(boxes)
    covered = lines * OVER_LINE + bands * OVER_BAND
    if label.upright:
        return covered
    anchors = np.asarray([place.anchor for place in places])
    ends = np.clip(anchors, boxes[:, :2], boxes[:, 2:])
    return covered + np.hypot(*(ends - anchors).T) * FAR


def _own_costs(places: Sequence[_Place], label: Label, ink: Ink) -> Points:
    """What each place costs whatever the other labels do."""
    if not places:
        return np.zeros(0)
    costs = _quick_costs(places, label, ink)
    if label.upright:
        return costs
    anchors = np.asarray([place.anchor for place in places])
    ends = np.asarray([_nearest(place) for place in places])
    return costs + ink.along(anchors, ends) * CROSSED


def _covered(places: Sequence[_Place], others: Sequence[Box]) -> Points:
    """Area [pt²] that each place shares with other labels."""
    boxes = np.asarray([place.box for place in places])
    total = np.zeros(len(places))
    for left, bottom, right, top in others:
        wide = np.minimum(boxes[:, 2], right) - np.maximum(boxes[:, 0], left)
        high = np.minimum(boxes[:, 3], top) - np.maximum(boxes[:, 1], bottom)
        total += np.clip(wide, 0, None) * np.clip(high, 0, None)
    return total


def _nearest(place: _Place) -> tuple[float, float]:
    """The point of a box that is nearest to its anchor."""
    left, bottom, right, top = place.box
    x, y = place.anchor
    return min(max(x, left), right), min(max(y, bottom), top)


def _write(axes: Axes, label: Label, place: _Place) -> None:
    left, bottom, right, top = place.box
    back = axes.transData.inverted()
    x, y = back.transform(((left + right) / 2, (bottom + top) / 2))
    text = _text(axes, label, float(x), float(y))
    text.set_bbox({"facecolor": "white", "edgecolor": "none", "alpha": 0.82, "pad": 0.8})
    if label.upright:
        return
    (x_end, y_end), (x_start, y_start) = back.transform([_nearest(place), place.anchor])
    axes.plot([x_start, x_end], [y_start, y_end], color=label.colour, linewidth=0.6, zorder=6)


def _text(axes: Axes, label: Label, x: float, y: float) -> Text:
    return axes.text(
        x, y, label.text, color=label.colour, fontsize=SIZE, ha="center", va="center",
        rotation=90 if label.upright else 0, fontweight="bold" if label.bold else "normal",
        zorder=7, parse_math=False, linespacing=1.1,
    )  # fmt: skip
