"""Whether two sides cross, against numpy's interpolation on a dense grid of currents."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.curve_checks import crossing
from catalogue.records import Curve

#: Currents that the logarithm tells apart, as it would not 1000 A and 999.9999999999999 A.
currents = st.floats(1, 1000).map(lambda current: round(current, 6))
times = st.floats(1e-3, 1e4)
sides = st.lists(st.tuples(currents, times), min_size=1, max_size=5, unique_by=lambda p: p[0]).map(
    lambda rows: tuple(
        zip(
            sorted(row[0] for row in rows), sorted((row[1] for row in rows), reverse=True),
            strict=True,
        )
    )
)  # fmt: skip


def over(curve):
    """The largest ratio soonest / latest on a grid and at all points; 0 where neither promises."""
    fast, slow = (np.log(np.array(side)) for side in (curve.earliest, curve.slowest))
    low, high = slow[0, 0], fast[-1, 0]
    if low > high:
        return 0.0
    grid = np.union1d(np.linspace(low, high, 2000), np.concatenate((fast[:, 0], slow[:, 0])))
    grid = grid[(grid >= low) & (grid <= high)]
    if curve.gates:
        soonest = fast[np.searchsorted(fast[:, 0], grid, "left"), 1]
        latest = slow[np.searchsorted(slow[:, 0], grid, "right") - 1, 1]
    else:
        # Outside its points numpy keeps the end's time, as both sides do here.
        soonest = np.interp(grid, fast[:, 0], fast[:, 1])
        latest = np.interp(grid, slow[:, 0], slow[:, 1])
    return float(np.exp(np.max(soonest - latest)))


@settings(max_examples=400, deadline=None)
@given(sides, sides, st.booleans())
def test_a_curve_is_called_crossed_where_the_grid_finds_it_so(fast, slow, gates):
    curve = Curve(fast, slow, gates)
    ratio = over(curve)
    if ratio > 1 + 1e-6:
        assert crossing(curve) is not None
    elif ratio < 1 - 1e-6:
        assert crossing(curve) is None


@settings(max_examples=200, deadline=None)
@given(sides, sides, st.floats(0.01, 0.5))
def test_an_average_is_compared_with_its_tolerance_taken_off(average, slow, tolerance):
    shifted = tuple((current * (1 - tolerance), time) for current, time in average)
    curve = Curve((), slow, False, average, tolerance)
    assert crossing(curve) == crossing(Curve(shifted, slow))
