"""The lines of a chart are the boundaries' own values, and stop where these promise nothing."""

from __future__ import annotations

from math import sqrt

import pytest

from coordination.charts.chart import LONGEST, SHORTEST
from coordination.charts.sampling import curve_of
from coordination.curves import Boundary, Opening

DRAWN = Opening(
    "fuse",
    Boundary(((300.0, 1000.0), (600.0, 1.0), (2000.0, 0.005)), fastest=True),
    Boundary(((400.0, 1000.0), (900.0, 1.0), (3000.0, 0.01)), fastest=False),
)
GATES = Opening(
    "strip",
    Boundary(((110.0, 3600.0), (200.0, 1.0), (600.0, 0.1)), fastest=True, gates=True),
    Boundary(((135.0, 1800.0), (200.0, 60.0), (600.0, 1.0)), fastest=False, gates=True),
)
LATEST_ONLY = Opening(
    "bolt", Boundary((), fastest=True), Boundary(((400.0, 600.0), (900.0, 1.0)), fastest=False)
)
BREAKER = Opening(
    "breaker",
    Boundary(((120.0, 3600.0), (1000.0, 0.5)), fastest=True, melts=False),
    Boundary(((160.0, 3600.0), (2000.0, 0.1)), fastest=False, melts=False),
)
ENERGIES = Opening("energies", DRAWN.fastest, DRAWN.slowest, 8_000.0, 60_000.0)
ALL = (DRAWN, GATES, LATEST_ONLY, BREAKER, ENERGIES)


@pytest.mark.parametrize("opening", ALL, ids=lambda each: each.name)
@pytest.mark.parametrize("share", [1.0, 0.25])
def test_every_vertex_is_what_the_device_promises(opening: Opening, share: float) -> None:
    curve = curve_of(opening, ("x",), share, 5000.0)
    sides = ((curve.fastest, opening.no_sooner_than), (curve.slowest, opening.cleared_by))
    count = 0
    for strokes, promise in sides:
        for stroke in strokes:
            for current, time in stroke.points:
                assert promise(current * share).time == pytest.approx(time, rel=1e-9)
                count += 1
    assert count > 20


@pytest.mark.parametrize("opening", ALL, ids=lambda each: each.name)
def test_what_is_dashed_rests_on_physics_and_what_is_solid_does_not(opening: Opening) -> None:
    curve = curve_of(opening, ("x",))
    for strokes, promise in (
        (curve.fastest, opening.no_sooner_than), (curve.slowest, opening.cleared_by),
    ):  # fmt: skip
        for stroke in strokes:
            for (left, _), (right, _) in zip(stroke.points, stroke.points[1:], strict=False):
                assert (promise(sqrt(left * right)).basis == "physics") == stroke.physics


def test_the_parts_own_points_are_on_the_lines() -> None:
    curve = curve_of(DRAWN, ("x",))
    drawn = {point for stroke in curve.fastest for point in stroke.points}
    assert set(DRAWN.fastest.points) <= drawn
    slow = {point for stroke in curve.slowest for point in stroke.points}
    assert set(DRAWN.slowest.points) <= slow


def test_past_an_adiabatic_last_point_the_energy_stays() -> None:
    """2000² × 0.005 = 20 000 A²s; at 1 ms that is 4472 A."""
    curve = curve_of(DRAWN, ("x",))
    last = curve.fastest[-1]
    assert last.physics
    assert last.points[-1][0] >= sqrt(20_000 / SHORTEST) * 0.999
    for current, time in last.points:
        assert current**2 * time == pytest.approx(20_000, rel=1e-6)


def test_a_side_without_points_is_not_drawn() -> None:
    curve = curve_of(LATEST_ONLY, ("x",))
    assert curve.fastest == ()
    assert curve.band == ()
    assert curve.slowest[0].points[0] == (400.0, 600.0)


def test_nothing_is_drawn_below_the_last_slow_point() -> None:
    curve = curve_of(DRAWN, ("x",))
    assert min(current for stroke in curve.slowest for current, _ in stroke.points) == 400.0
    assert (400.0, 1000.0) in curve.open_ends


def test_a_breakers_fastest_side_ends_open_at_its_last_point() -> None:
    curve = curve_of(BREAKER, ("x",), reach=5000.0)
    assert max(current for stroke in curve.fastest for current, _ in stroke.points) == 1000.0
    assert (1000.0, 0.5) in curve.open_ends
    assert max(current for stroke in curve.slowest for current, _ in stroke.points) >= 5000.0


def test_gates_are_steps_with_their_points_marked() -> None:
    curve = curve_of(GATES, ("x",))
    assert set(curve.gates) == {*GATES.fastest.points, *GATES.slowest.points}
    flat = [time for stroke in curve.slowest for current, time in stroke.points
            if 135.0 < current < 199.9]  # fmt: skip
    assert flat
    assert set(flat) == {1800.0}


def test_the_band_lies_between_both_sides_and_only_where_both_are_bounded() -> None:
    (outline,) = curve_of(DRAWN, ("x",)).band
    half = len(outline) // 2
    for (low_current, low), (high_current, high) in zip(
        outline[:half], reversed(outline[half:]), strict=True
    ):
        assert low_current == high_current
        assert low <= high
        assert low_current >= 400.0


def test_a_share_moves_a_curve_to_larger_currents() -> None:
    whole, half = curve_of(DRAWN, ("x",)), curve_of(DRAWN, ("x",), 0.5)
    assert half.slowest[0].points[0] == (800.0, 1000.0)
    assert whole.slowest[0].points[0] == (400.0, 1000.0)


def test_open_ends_lie_on_the_sheet() -> None:
    for opening in ALL:
        for _, time in curve_of(opening, ("x",)).open_ends:
            assert SHORTEST < time < LONGEST
