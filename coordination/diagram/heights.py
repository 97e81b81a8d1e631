"""How far down every bar and every lane's end lies: as high as what is above them allows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from coordination.diagram.lane import Bar, Lane

#: What lining up bars of one rank may cost in height, as a share of it.
_WORTH = 0.15


def set_heights(bars: Mapping[str, Bar], lanes: Sequence[Lane]) -> float:
    """Set `y` of the bars and `y0`, `y1` of the lanes; gives the height of it all [px].

    Bars as many bars down are lined up where that does not make it much higher; loads always are.
    """
    order = _downwards(bars, lanes)
    _set_bars(bars, lanes, order, ranks={})
    least = _set_ends(bars, lanes)
    _set_bars(bars, lanes, order, ranks=_ranks(lanes, order))
    if (lined := _set_ends(bars, lanes)) <= least * (1 + _WORTH):
        return lined
    _set_bars(bars, lanes, order, ranks={})
    return _set_ends(bars, lanes)


def _downwards(bars: Mapping[str, Bar], lanes: Sequence[Lane]) -> list[str]:
    """The bars, each after those above it."""
    above: dict[str, set[str]] = {key: set() for key in bars}
    for lane in lanes:
        if lane.upper is not None and lane.lower is not None:
            above[lane.lower].add(lane.upper)
    order: list[str] = []
    while len(order) < len(bars):
        order += [key for key in bars if key not in order and above[key] <= set(order)]
    return order


def _ranks(lanes: Sequence[Lane], order: Sequence[str]) -> dict[str, int]:
    ranks: dict[str, int] = {}
    for key in order:
        above = [lane.upper for lane in lanes if lane.lower == key and lane.upper is not None]
        ranks[key] = 1 + max((ranks[each] for each in above), default=-1)
    return ranks


def _set_bars(
    bars: Mapping[str, Bar], lanes: Sequence[Lane], order: Sequence[str], ranks: Mapping[str, int]
) -> None:
    """Each bar as high as it can be; those of one rank, if there are ranks, as low as the lowest.

    Roots stay where they are: what hangs on one would be pushed down for nothing.
    """
    levels: dict[int, float] = {}
    for key in sorted(order, key=lambda key: ranks.get(key, 0)) if ranks else order:
        bars[key].y = _least(bars, lanes, key)
        if rank := ranks.get(key, 0):
            same = [each for each in order if ranks.get(each) == rank]
            if rank not in levels:
                levels[rank] = max(_least(bars, lanes, each) for each in same)
            bars[key].y = levels[rank]


def _least(bars: Mapping[str, Bar], lanes: Iterable[Lane], key: str) -> float:
    """What stands on a bar keeps below the bar that it hangs on."""
    need = [0.0]
    tree = (lane.upper for lane in lanes if lane.lower == key and not lane.link)
    roof = max((bars[each].y + bars[each].height for each in tree if each), default=0.0)
    for lane in lanes:
        if lane.lower == key:
            upper = bars[lane.upper] if lane.upper is not None else None
            need.append(lane.need + (upper.y + upper.height if upper is not None else roof))
    return max(need) + bars[key].zone


def _set_ends(bars: Mapping[str, Bar], lanes: Sequence[Lane]) -> float:
    for lane in lanes:
        upper = bars[lane.upper] if lane.upper is not None else None
        if upper is not None:
            lane.y0, lane.above = upper.y + upper.height, upper.height
        elif lane.lower is not None:
            lane.y0 = max(0.0, bars[lane.lower].y - bars[lane.lower].zone - lane.need)
    loads = [lane for lane in lanes if lane.foot is not None]
    row = max((lane.y0 + lane.need for lane in loads), default=0.0)
    row = max([row, *(bar.y + bar.height + TAILS for bar in bars.values() if loads)])
    for lane in lanes:
        if lane.lower is not None:
            lane.y1, lane.below = bars[lane.lower].y, bars[lane.lower].height
        elif lane.foot is not None:
            lane.y1 = row + lane.foot.height
        else:
            lane.y1 = lane.y0
    ends = [lane.y1 for lane in lanes] + [bar.y + bar.height for bar in bars.values()]
    return max(ends, default=0.0)


#: Least height from the lowest bar to the row of loads [px].
TAILS = 14.0
