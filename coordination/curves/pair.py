"""Whether the downstream device of a pair always clears before the upstream one can open.

Both boundaries are straight in log-log between their corners, so the pair is compared exactly: at
every corner, just beside every jump, and at the ends of the range of currents that can occur. What
the upstream device carries besides its share bends its line, but only so that the ratio of the two
times is least at one of the ends all the same.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from math import inf
from typing import Literal, NamedTuple

from catalogue.frozen import dataclass
from coordination.curves.boundary import Bound
from coordination.curves.opening import BESIDE, Opening, beside

Standing = Literal["proven", "broken", "unproven"]

#: Share by which two ratios are taken for equal.
EQUAL = 1e-9
#: Halvings of a range to find where a proof ends.
HALVINGS = 48


class Comparison(NamedTuple):
    """Both devices at one fault current.

    current          -- through the downstream device [A]
    upstream_current -- its share through the upstream device, and what that carries besides [A]
    cleared, opens   -- downstream's latest clearing, upstream's earliest opening [s]
    """

    current: float
    upstream_current: float
    cleared: Bound
    opens: Bound
    standing: Standing


@dataclass(frozen=True, slots=True)
class PairResult:
    """The pair over a range of currents.

    standing     -- proven over the whole range, broken somewhere by the parts' own data, unproven
    proven_up_to -- largest current [A] up to which it is proven without a gap; None: nowhere
    first_gap    -- the comparison at the lowest current that is not proven; None: none
    worst        -- the least ratio opens / cleared, broken before unproven before proven
    """

    standing: Standing
    low: float
    high: float
    proven_up_to: float | None
    first_gap: Comparison | None
    worst: Comparison


def compare_pair(
    down: Opening, up: Opening, low: float, high: float, share: float = 1.0, other: float = 0.0
) -> PairResult:
    """Compare a pair for every downstream current from `low` to `high` [A].

    share -- of each downstream ampere that flows through the upstream device [1]
    other -- what the upstream device carries besides, over the whole range [A]
    Raises ValueError if the range is empty or not positive, share is not positive, or other is
    negative.
    """
    if not 0 < low <= high or share <= 0 or other < 0:
        raise ValueError(
            f"no range of currents from {low} to {high} with share {share} beside {other}"
        )
    currents = _currents(down, up, low, high, share, other)
    if (worst := _least_apart(down, up, currents, share, other)) is not None:
        closest = compare_at(down, up, worst, share, other)
        return PairResult("proven", low, high, high, None, closest)
    comparisons = [compare_at(down, up, current, share, other) for current in currents]
    gap = next((item for item in comparisons if item.standing != "proven"), None)
    return PairResult(
        standing=_overall(comparisons),
        low=low,
        high=high,
        proven_up_to=_proven_up_to(down, up, comparisons, share, other),
        first_gap=gap,
        worst=min(comparisons, key=_rank),
    )


def _least_apart(
    down: Opening, up: Opening, currents: list[float], share: float, other: float
) -> float | None:
    """The current [A] at which a proven pair is closest, the largest of equals; or None."""
    closest, least = currents[-1], inf
    known = down.latest_at_places()
    for current in reversed(currents):
        opens = up.soonest(current * share + other)
        if opens == inf:
            continue
        cleared = known[current] if current in known else down.latest(current)
        if not cleared < opens:
            return None
        if opens < least * cleared * (1 - EQUAL):
            closest, least = current, opens / cleared
    return closest


def compare_at(
    down: Opening, up: Opening, current: float, share: float = 1.0, other: float = 0.0
) -> Comparison:
    """Both devices at one downstream current [A]: it must have cleared before the other opens."""
    through_up = current * share + other
    cleared = down.cleared_by(current)
    opens = up.stays_closed(through_up)
    return Comparison(current, through_up, cleared, opens, _standing(down, up, cleared, opens))


def _standing(down: Opening, up: Opening, cleared: Bound, opens: Bound) -> Standing:
    if opens.basis == "rating":
        return "proven"
    if cleared.time is None or opens.time is None:
        return "unproven"
    if cleared.time < opens.time:
        return "proven"
    own = down.clears_by_own_data(cleared) and up.opens_by_own_data(opens)
    return "broken" if own else "unproven"


def _currents(
    down: Opening, up: Opening, low: float, high: float, share: float, other: float
) -> list[float]:
    """Where the two may change places: corners, and both sides of each jump."""
    places = down.slow_places()
    found = {low, high, *places[bisect_left(places, low) : bisect_right(places, high)]}
    # A little more than the range, as what lies beside a jump may lie within.
    least = (low * share + other) * (1 - 3 * BESIDE)
    most = (high * share + other) * (1 + 3 * BESIDE)
    corners = up.fast_corners()
    for corner in corners[bisect_left(corners, least) : bisect_right(corners, most)]:
        current = (corner - other) / share
        if low < current < high:
            found.add(current)
    jumps = up.fast_jumps()
    for each in jumps[bisect_left(jumps, least) : bisect_right(jumps, most)]:
        found.update(x for x in beside((each - other) / share) if low <= x <= high)
    return sorted(found)


def _overall(comparisons: list[Comparison]) -> Standing:
    standings = {item.standing for item in comparisons}
    if "broken" in standings:
        return "broken"
    return "unproven" if "unproven" in standings else "proven"


def _rank(item: Comparison) -> tuple[int, float, float]:
    """By standing, then by ratio of the two times; of equals the largest current."""
    order = {"broken": 0, "unproven": 1, "proven": 2}[item.standing]
    if item.opens.time is None or item.cleared.time is None:
        return order, 0.0, -item.current
    ratio = item.opens.time / item.cleared.time if item.cleared.time > 0 else float("inf")
    return order, round(ratio, 9), -item.current


def _proven_up_to(
    down: Opening, up: Opening, comparisons: list[Comparison], share: float, other: float
) -> float | None:
    """Walk up from the low end; between a proven corner and the next gap, halve to the crossing."""
    if comparisons[0].standing != "proven":
        return None
    previous = comparisons[0]
    for item in comparisons[1:]:
        if item.standing != "proven":
            return _last_proven(down, up, (previous.current, item.current), share, other)
        previous = item
    return previous.current


def _last_proven(
    down: Opening, up: Opening, between: tuple[float, float], share: float, other: float
) -> float:
    proven, gap = between
    for _ in range(HALVINGS):
        middle = (proven + gap) / 2
        if compare_at(down, up, middle, share, other).standing == "proven":
            proven = middle
        else:
            gap = middle
    return proven
