"""From what a device promises at each current to the lines of a chart.

Every vertex is a value of the device's own boundaries; between vertices both are straight in
log-log, up to the pitch of the samples.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby, pairwise
from math import sqrt

from coordination.charts.chart import LONGEST, SHORTEST, Curve, Point, Stroke
from coordination.curves import Bound, Boundary, Opening

#: Samples per decade between the corners of a boundary.
PITCH = 32
#: How far beside a corner the other side of a jump is looked at (relative).
BESIDE = 1e-9

At = Callable[[float], Bound]


def curve_of(
    opening: Opening, label: tuple[str, ...], share: float = 1.0, reach: float = 0.0
) -> Curve:
    """A device's curve.

    share -- its current per ampere of the chart's axis [1]
    reach -- current of that axis up to which it is followed at least [A]
    """
    currents = _currents(opening, share, reach)

    def fast(current: float) -> Bound:
        return opening.no_sooner_than(current * share)

    def slow(current: float) -> Bound:
        return opening.cleared_by(current * share)

    starts = _starts(opening, share)
    fastest, slowest = (
        _strokes(at, [each for each in currents if each >= start])
        for at, start in zip((fast, slow), starts, strict=True)
    )
    bounded = [each for each in currents if each >= max(starts)]
    return Curve(
        label=label,
        kind="device",
        fastest=fastest,
        slowest=slowest,
        band=_bands(fast, slow, bounded),
        open_ends=(*_ends(fastest), *_ends(slowest)),
        gates=_gates(opening, share),
    )


def _currents(opening: Opening, share: float, reach: float) -> list[float]:
    """Where the boundaries are looked at: corners, both sides of each, and between."""
    corners = sorted({*opening.corners(), *_bends(opening.fastest)})
    ends = [*_ends_of_energy(opening), *corners]
    low, high = min(ends), max(*ends, reach * share)
    found = {each for corner in corners for each in _around(corner)}
    step = 10 ** (1 / PITCH)
    current = low
    while current < high:
        found.add(current)
        current *= step
    found |= {low, high}
    return [each / share for each in sorted(found)]


def _around(corner: float) -> tuple[float, float, float]:
    return corner * (1 - BESIDE), corner, corner * (1 + BESIDE)


def _bends(boundary: Boundary) -> list[float]:
    """Where the next gate's I²t begins to count between two gates of a fastest side."""
    if not (boundary.gates and boundary.melts):
        return []
    pairs = pairwise(boundary.points)
    return [right[0] * sqrt(right[1] / left[1]) for left, right in pairs]


def _ends_of_energy(opening: Opening) -> list[float]:
    """Currents at which what is constant in I²t enters and leaves the chart."""
    energies = [each for each in (opening.melting_i2t, opening.clearing_i2t) if each]
    energies += [
        current**2 * time
        for side in (opening.fastest, opening.slowest)
        for current, time in side.points[-1:]
    ]
    found = [sqrt(energy / SHORTEST) for energy in energies]
    if not opening.fastest.points and opening.melting_i2t:
        found.append(sqrt(opening.melting_i2t / LONGEST))
    return found


def _starts(opening: Opening, share: float) -> tuple[float, float]:
    """Currents below which a side is not drawn.

    Below its first point the fastest side only repeats that point's time: true, but no news.
    """
    fast = 0.0
    if opening.fastest.points:
        fast = opening.fastest.points[0][0] / share
    return fast, 0.0


def _strokes(at: At, currents: Sequence[float]) -> tuple[Stroke, ...]:
    """The bounded pieces of one side, solid and dashed apart."""
    pieces: list[tuple[bool, tuple[Point, Point]]] = []
    for left, right in pairwise(currents):
        start, end = at(left).time, at(right).time
        middle = at(sqrt(left * right))
        if start is None or end is None or middle.time is None:
            continue
        pieces.append((middle.basis == "physics", ((left, start), (right, end))))
    return tuple(
        Stroke(tuple(points), physics)
        for physics, run in groupby(pieces, key=lambda piece: piece[0])
        for points in _joined([segment for _, segment in run])
    )


def _joined(segments: Sequence[tuple[Point, Point]]) -> list[list[Point]]:
    """Segments that follow each other, as lines."""
    lines: list[list[Point]] = []
    for start, end in segments:
        if lines and lines[-1][-1] == start:
            lines[-1].append(end)
        else:
            lines.append([start, end])
    return lines


def _bands(fast: At, slow: At, currents: Sequence[float]) -> tuple[tuple[Point, ...], ...]:
    """Outlines of what lies between both sides, where both are bounded."""
    found: list[tuple[Point, ...]] = []
    both = [(each, fast(each).time, slow(each).time) for each in currents]
    for bounded, run in groupby(both, key=lambda each: None not in each):
        sides = list(run)
        if bounded and len(sides) > 1:
            under = [(each, low) for each, low, _ in sides if low is not None]
            over = [(each, high) for each, _, high in reversed(sides) if high is not None]
            found.append((*under, *over))
    return tuple(found)


def _ends(strokes: Sequence[Stroke]) -> tuple[Point, ...]:
    """Both ends of a side that lie on the sheet."""
    if not strokes:
        return ()
    ends = (strokes[0].points[0], strokes[-1].points[-1])
    return tuple(end for end in ends if SHORTEST * 1.01 < end[1] < LONGEST / 1.01)


def _gates(opening: Opening, share: float) -> tuple[Point, ...]:
    sides = (opening.fastest, opening.slowest)
    return tuple(
        (current / share, time)
        for side in sides
        if side.gates
        for current, time in side.points
        if SHORTEST <= time <= LONGEST
    )
