"""What a boundary promises at, between and beyond its points; values by hand."""

import pytest

from coordination.curves import Bound, Boundary

# ISO 8820-3 type C gates for a 10 A blade (200 %: 0.15-5 s, 350 %: 0.04-0.5 s, 600 %: 0.02-0.1 s);
# from memory.
FASTEST = ((20.0, 0.15), (35.0, 0.04), (60.0, 0.02))
SLOWEST = ((20.0, 5.0), (35.0, 0.5), (60.0, 0.1))


@pytest.mark.parametrize("gates", [True, False])
def test_a_point_is_what_the_standard_prints(gates: bool) -> None:
    assert Boundary(SLOWEST, fastest=False, gates=gates).at(35.0) == Bound(0.5, "point")
    assert Boundary(FASTEST, fastest=True, gates=gates).at(20.0) == Bound(0.15, "point")


def test_between_gates_the_slowest_stays_at_the_gate_before() -> None:
    assert Boundary(SLOWEST, fastest=False, gates=True).at(34.0) == Bound(5.0, "gate")


def test_between_gates_the_fastest_rests_on_the_energy_of_the_next_gate() -> None:
    # 0.04 s x (35 A / 28 A)^2 = 0.04 x 1.5625 = 0.0625 s
    bound = Boundary(FASTEST, fastest=True, gates=True).at(28.0)
    assert bound.basis == "gate"
    assert bound.time == pytest.approx(0.0625)


def test_between_drawn_points_the_line_is_straight_in_log_log() -> None:
    # halfway in log current (sqrt(20 x 35) = 26.458 A) the time is sqrt(5 x 0.5) = 1.5811 s
    bound = Boundary(SLOWEST, fastest=False).at((20.0 * 35.0) ** 0.5)
    assert bound.basis == "line"
    assert bound.time == pytest.approx(1.58114, rel=1e-5)


def test_past_the_last_point_the_energy_stays_constant() -> None:
    # 0.1 s x (60 A)^2 = 360 A2s; at 600 A: 360 / 360 000 = 1 ms
    bound = Boundary(SLOWEST, fastest=False, gates=True).at(600.0)
    assert bound.basis == "physics"
    assert bound.time == pytest.approx(0.001)


def test_below_the_last_slow_point_nothing_is_promised() -> None:
    assert Boundary(SLOWEST, fastest=False, gates=True).at(19.9) == Bound(None, "not bounded")


def test_below_its_first_point_the_fastest_is_at_least_as_slow() -> None:
    assert Boundary(FASTEST, fastest=True, gates=True).at(5.0) == Bound(0.15, "gate")


def test_no_points_promise_nothing() -> None:
    assert Boundary((), fastest=True).at(100.0) == Bound(None, "not bounded")


def test_past_a_last_point_that_is_not_adiabatic_nothing_forbids_earlier_melting() -> None:
    # 0.02 s x (60 A)^2 = 72 A2s holds some heat that escaped: at 600 A it may melt with less.
    assert Boundary(FASTEST, fastest=True, gates=True).at(600.0) == Bound(None, "not bounded")


def test_past_an_adiabatic_last_point_the_earliest_melting_keeps_its_energy() -> None:
    # 0.008 s x (60 A)^2 = 28.8 A2s; at 240 A: 28.8 / 57600 = 0.5 ms
    bound = Boundary((*FASTEST[:2], (60.0, 0.008)), fastest=True).at(240.0)
    assert bound.basis == "physics"
    assert bound.time == pytest.approx(0.0005)


def test_a_mechanism_is_no_faster_past_its_last_point_and_may_open_at_once() -> None:
    slowest = Boundary(SLOWEST, fastest=False, melts=False)
    assert slowest.at(600.0) == Bound(0.1, "gate")
    fastest = Boundary((*FASTEST[:2], (60.0, 0.008)), fastest=True, melts=False)
    assert fastest.at(240.0) == Bound(None, "not bounded")


def test_between_gates_of_a_breaker_more_current_never_takes_longer_and_that_is_all() -> None:
    # IEC 60898-1, 16 A band C: 1 s at 2.55 In and 0.1 s at 5 In, the magnetic release's first.
    fast = Boundary(((40.8, 1.0), (80.0, 0.1)), fastest=True, gates=True, melts=False)
    assert fast.at(60.0) == Bound(0.1, "gate")
