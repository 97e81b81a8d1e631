"""How far to the right every lane stands: as near to each other as their words allow."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coordination.diagram.lane import Bar, Lane, Rect

#: Between what two lanes need [px].
GAP = 4.0
#: Rounds in which lanes are moved to the middle of what they belong to.
_ROUNDS = 8


def set_columns(bars: Mapping[str, Bar], line: Sequence[Lane]) -> None:
    """Set `x` of the lanes, which are ordered, and let bars' labels stand at one of them."""
    for key, bar in bars.items():
        _host(bar, [lane for lane in line if key in (lane.upper, lane.lower)], key)
    rects = [lane.rects() for lane in line]
    apart = _apart(rects)
    for place, lane in enumerate(line):
        lane.x = max((line[left].x + need for left, need in apart[place]), default=0.0)
    for _ in range(_ROUNDS):
        _centre(line, apart)


def _host(bar: Bar, lanes: Sequence[Lane], key: str) -> None:
    """The label stands right of the last lane from above; in a box, at its first lane."""
    from_above = [lane for lane in lanes if lane.lower == key]
    if lanes and bar.rows:
        host = lanes[0] if bar.boxed else (from_above or list(lanes[:1]))[-1]
        host.hosted.append(bar)


def _apart(rects: Sequence[Sequence[Rect]]) -> list[list[tuple[int, float]]]:
    """For each lane those to its left that matter, each with the least distance between [px]."""
    found: list[list[tuple[int, float]]] = []
    for place, right in enumerate(rects):
        needs = ((left, _distance(rects[left], right)) for left in range(place))
        found.append([(left, need) for left, need in needs if need > 0])
    return found


def _distance(left: Sequence[Rect], right: Sequence[Rect]) -> float:
    return max(
        (
            one.right + other.left + GAP
            for one in left
            for other in right
            if one.top < other.bottom and other.top < one.bottom
            if not one.bar or one.bar != other.bar
        ),
        default=0.0,
    )


def _centre(line: Sequence[Lane], apart: Sequence[Sequence[tuple[int, float]]]) -> None:
    """Move each lane towards the middle of what stands at the bar's other side, as far as it can.

    From the right, so that what is to the right of a lane has moved already.
    """
    for place in range(len(line) - 1, -1, -1):
        lane = line[place]
        wish = _wish(line, lane)
        if wish is None:
            continue
        low = max((line[left].x + need for left, need in apart[place]), default=0.0)
        high = min(
            (
                line[right].x - need
                for right in range(place + 1, len(line))
                for left, need in apart[right]
                if left == place
            ),
            default=max(each.x for each in line),
        )
        if high >= low:
            lane.x = min(max(wish, low), high)


def _wish(line: Sequence[Lane], lane: Lane) -> float | None:
    """The middle of the lanes it continues, if it is the only one to do so."""
    wishes = []
    if lane.upper is not None:
        below = [each for each in line if each.upper == lane.upper]
        above = [each.x for each in line if each.lower == lane.upper]
        if len(below) == 1 and above:
            wishes.append((min(above) + max(above)) / 2)
    if lane.lower is not None:
        above_it = [each for each in line if each.lower == lane.lower]
        below_it = [each.x for each in line if each.upper == lane.lower]
        if len(above_it) == 1 and below_it:
            wishes.append((min(below_it) + max(below_it)) / 2)
    return sum(wishes) / len(wishes) if wishes else None
