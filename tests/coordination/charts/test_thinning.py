"""Points that a line does not need are left out, and no other."""

from __future__ import annotations

from itertools import pairwise
from math import hypot, log10

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coordination.charts.thinning import BESIDE, thinned


def test_what_lies_on_a_straight_line_goes() -> None:
    # I² t = 10⁴ A²s: straight where both axes are logarithmic.
    line = [(current, 1e4 / current**2) for current in (10.0, 20.0, 50.0, 100.0, 1000.0)]
    assert thinned(line) == ((10.0, 100.0), (1000.0, 0.01))


def test_a_corner_and_a_step_stay() -> None:
    line = [(10.0, 10.0), (20.0, 10.0), (40.0, 10.0), (40.0, 1.0), (40.0, 0.1), (80.0, 0.1)]
    assert thinned(line) == ((10.0, 10.0), (40.0, 10.0), (40.0, 0.1), (80.0, 0.1))


def test_a_closed_outline_keeps_its_far_side() -> None:
    outline = [(10.0, 1.0), (100.0, 1.0), (100.0, 10.0), (10.0, 10.0), (10.0, 1.0)]
    assert thinned(outline) == tuple(outline)


@pytest.mark.parametrize("few", [[], [(1.0, 1.0)], [(1.0, 1.0), (2.0, 3.0)]])
def test_few_points_stay_as_they_are(few: list[tuple[float, float]]) -> None:
    assert thinned(few) == tuple(few)


points = st.tuples(st.floats(1.0, 1e5), st.floats(1e-3, 1e4))


@given(st.lists(points, min_size=2, max_size=20))
def test_no_point_lies_further_off_than_allowed(line: list[tuple[float, float]]) -> None:
    kept = thinned(line)
    assert kept[0] == line[0]
    assert kept[-1] == line[-1]
    for point in line:
        off = min(_off(point, left, right) for left, right in pairwise(kept))
        assert off <= BESIDE * 1.001


def test_a_line_that_turns_back_keeps_where_it_turned() -> None:
    line = [(10.0, 1.0), (1000.0, 1.0), (100.0, 1.0)]
    assert thinned(line) == tuple(line)


Point = tuple[float, float]


def _off(point: Point, left: Point, right: Point) -> float:
    """Distance from the way between two points, in decades: the least of a convex function."""
    (x, y), (x_1, y_1), (x_2, y_2) = (tuple(map(log10, each)) for each in (point, left, right))

    def away(share: float) -> float:
        return hypot(x - x_1 - share * (x_2 - x_1), y - y_1 - share * (y_2 - y_1))

    low, high = 0.0, 1.0
    for _ in range(80):
        third = (high - low) / 3
        low, high = (
            (low, high - third) if away(low + third) < away(high - third) else (low + third, high)
        )
    return away((low + high) / 2)
