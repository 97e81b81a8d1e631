"""In which order the lanes stand from left to right, so that no lane crosses a bar.

What hangs on a bar stays together under it, which never crosses. Each further chain between two
bars is put where it crosses nothing; one that would is given up, to be drawn as two flags.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coordination.diagram.graph import Node
from coordination.diagram.heights import set_heights
from coordination.diagram.lane import Bar, Lane
from coordination.model import Busbar


def ordered(
    bars: Mapping[str, Bar], lanes: Sequence[Lane], roots: Sequence[str], parent: Mapping[str, str]
) -> tuple[list[Lane], list[Lane]]:
    """The lanes from left to right, and those that would cross. Sets all heights.

    parent -- bar to the bar it hangs on, where that is among the bars
    """
    kept = list(lanes)
    while True:
        set_heights(bars, kept)
        line = _sequence(bars, kept, roots, parent)
        crossing = _insert(bars, line, [lane for lane in kept if lane.link])
        if not crossing:
            _raise_sources(bars, line)
            return line, [lane for lane in lanes if lane not in kept]
        kept = [lane for lane in kept if lane is not crossing[0]]


def _sequence(
    bars: Mapping[str, Bar], lanes: Sequence[Lane], roots: Sequence[str], parent: Mapping[str, str]
) -> list[Lane]:
    """Lanes by what they hang on, without the links."""
    linked = _linked(lanes, parent)
    line: list[Lane] = []
    for place, root in enumerate(roots):
        line += _hanging(bars, lanes, root, parent, linked, turned=place > 0)
    return line


def _linked(lanes: Sequence[Lane], parent: Mapping[str, str]) -> set[str]:
    """Bars with a link at or below them."""
    found: set[str] = set()
    for lane in lanes:
        for end in (lane.upper, lane.lower) if lane.link else ():
            while end is not None and end not in found:
                found.add(end)
                end = parent.get(end)
    return found


def _hanging(
    bars: Mapping[str, Bar], lanes: Sequence[Lane], bar: str, parent: Mapping[str, str],
    linked: set[str], *, turned: bool,
) -> list[Lane]:  # fmt: skip
    """What stands on a bar, then what hangs on it; links go to the right, or if turned, left."""
    above = [lane for lane in lanes if lane.lower == bar and lane.upper is None]
    below = [lane for lane in lanes if lane.upper == bar and not lane.link]
    below.sort(key=lambda lane: (lane.lower in linked) != turned if linked else False)
    below.sort(key=lambda lane: _along(bars[bar].node, lane))
    line: list[Lane] = []
    for lane in below:
        line.append(lane)
        if lane.lower is not None:
            line += _hanging(bars, lanes, lane.lower, parent, linked, turned=turned)
    return [*above, *line]


def _along(node: Node, lane: Lane) -> int:
    """A chain's place along a busbar, where the file tells in which order they stand."""
    order = node.thing.order if isinstance(node.thing, Busbar) else ()
    circuits = lane.edge.circuits if lane.edge is not None else ()
    return next((order.index(each) for each in circuits if each in order), len(order))


def _insert(bars: Mapping[str, Bar], line: list[Lane], links: Sequence[Lane]) -> list[Lane]:
    """Put each link where it crosses nothing and lies nearest its bars; gives the others."""
    failed = []
    for lane in links:
        places = []
        for place in range(len(line) + 1):
            trial = [*line[:place], lane, *line[place:]]
            if not crossings(bars, trial):
                places.append((_stretch(trial), place))
        if places:
            line.insert(min(places)[1], lane)
        else:
            failed.append(lane)
    return failed


def crossings(bars: Mapping[str, Bar], line: Sequence[Lane]) -> int:
    """How many lanes pass through a bar, or its label, that they do not end at."""
    count = 0
    for key, (first, last) in _spans(line).items():
        bar = bars[key]
        top, bottom = bar.y - bar.zone, bar.y + bar.height
        for lane in line[first:last]:
            if key not in (lane.upper, lane.lower) and lane.y0 <= bottom and lane.y1 >= top:
                count += 1
    return count


def _spans(line: Sequence[Lane]) -> dict[str, tuple[int, int]]:
    """Bar to the places of its first and its last lane."""
    spans: dict[str, tuple[int, int]] = {}
    for place, lane in enumerate(line):
        for key in (lane.upper, lane.lower):
            if key is not None:
                spans[key] = (spans[key][0] if key in spans else place, place)
    return spans


def _stretch(line: Sequence[Lane]) -> int:
    """How far all bars reach, in lanes."""
    return sum(last - first for first, last in _spans(line).values())


def _raise_sources(bars: Mapping[str, Bar], line: Sequence[Lane]) -> None:
    """Sources go to the top of the sheet where nothing is in the way."""
    for lane in line:
        if lane.head is not None and lane.lower is not None and lane.y0 > 0.0:
            low, lane.y0 = lane.y0, 0.0
            if crossings(bars, line):
                lane.y0 = low
