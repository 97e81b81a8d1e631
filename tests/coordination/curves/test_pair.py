"""Pairs in series: who opens first, over the whole range; values by hand."""

import pytest

from coordination.curves.boundary import Boundary
from coordination.curves.opening import Opening
from coordination.curves.pair import compare_pair


def device(
    name: str,
    fastest: tuple[tuple[float, float], ...],
    slowest: tuple[tuple[float, float], ...],
    melting: float | None = None,
    clearing: float | None = None,
    gates: bool = False,
) -> Opening:
    return Opening(
        name, Boundary(fastest, True, gates), Boundary(slowest, False, gates), melting, clearing
    )


# Straight bands: the small one clears 1000 A2s everywhere (10 s at 10 A, 0.1 s at 100 A).
SMALL = device("small", ((10.0, 5.0), (100.0, 0.05)), ((10.0, 10.0), (100.0, 0.1)))


def test_a_band_wholly_above_is_proven_over_the_whole_range() -> None:
    large = device("large", ((10.0, 20.0), (100.0, 0.2)), ((10.0, 40.0), (100.0, 0.4)))
    result = compare_pair(SMALL, large, 10.0, 100.0)
    assert result.standing == "proven"
    assert result.first_gap is None
    assert result.proven_up_to == 100.0


def test_past_a_last_point_of_a_fifth_of_a_second_only_a_melting_energy_proves_it() -> None:
    # 0.2 s at 100 A are 2000 A2s with the heat lost on the way; at 1 kA less than that may melt it.
    points = ((10.0, 20.0), (100.0, 0.2)), ((10.0, 40.0), (100.0, 0.4))
    result = compare_pair(SMALL, device("large", *points), 10.0, 1000.0)
    assert (result.standing, result.proven_up_to) == ("unproven", pytest.approx(100.0))
    # The small one clears 1000 A2s at any current; 1100 A2s of melting stay above that.
    stated = device("large", *points, melting=1100.0)
    assert compare_pair(SMALL, stated, 10.0, 1000.0).standing == "proven"


def test_a_crossing_is_found_where_the_two_lines_meet() -> None:
    # upstream earliest: 100 s at 10 A falling to 0.01 s at 100 A, that is 100 (10/I)^4;
    # downstream latest: 10 (10/I)^2; equal where (I/10)^2 = 10, I = 31.623 A
    large = device("large", ((10.0, 100.0), (100.0, 0.01)), ((10.0, 200.0), (100.0, 0.02)))
    result = compare_pair(SMALL, large, 10.0, 100.0)
    assert result.standing == "broken"
    assert result.proven_up_to == pytest.approx(31.6228, rel=1e-5)
    assert result.worst.current == 100.0


def test_two_standards_that_overlap_prove_nothing_and_break_nothing() -> None:
    one = device("one", ((20.0, 0.15),), ((20.0, 5.0),), gates=True)
    two = device("two", ((40.0, 0.15),), ((40.0, 5.0),), gates=True)
    assert compare_pair(one, two, 40.0, 400.0).standing == "unproven"


def test_an_upstream_device_without_a_fastest_time_is_unproven_not_broken() -> None:
    # A class T fuse has no minimum opening time above 110 % (UL 248-15; from memory).
    bare = device("bare", (), ((270.0, 7200.0), (400.0, 480.0)), gates=True)
    assert compare_pair(SMALL, bare, 100.0, 5000.0).standing == "unproven"


def test_energies_decide_where_both_are_fast() -> None:
    # downstream lets 900 A2s through, upstream melts at 1000 A2s: proven; at 800 A2s: broken
    down = device("down", ((10.0, 5.0),), ((10.0, 10.0),), clearing=900.0)
    proven = device("up", (), ((50.0, 100.0),), melting=1000.0)
    broken = device("up", (), ((50.0, 100.0),), melting=800.0)
    assert compare_pair(down, proven, 1000.0, 20000.0).standing == "proven"
    assert compare_pair(down, broken, 1000.0, 20000.0).standing == "broken"


def test_half_the_current_through_the_upstream_device_quadruples_its_time() -> None:
    # 800 A2s at half the current stand against 900 A2s at the whole: 800 / 0.25 = 3200 > 900
    down = device("down", ((10.0, 5.0),), ((10.0, 10.0),), clearing=900.0)
    up = device("up", (), ((50.0, 100.0),), melting=800.0)
    assert compare_pair(down, up, 1000.0, 20000.0, share=0.5).standing == "proven"


def test_an_empty_range_is_refused() -> None:
    with pytest.raises(ValueError, match="no range"):
        compare_pair(SMALL, SMALL, 10.0, 5.0)


def test_past_the_last_point_the_stated_melting_energy_counts_not_the_points() -> None:
    # last point 1000 A, 7 ms: 7000 A2s; stated least 4500 A2s; at 3000 A: 4500 / 9e6 = 0.5 ms
    fuse = device("fuse", ((200.0, 10.0), (1000.0, 0.007)), (), melting=4500.0)
    assert fuse.no_sooner_than(3000.0).time == pytest.approx(0.0005)
    # a fuse that lets 6000 A2s through is broken under it, though 6000 < 7000
    down = device("down", (), ((100.0, 10.0),), clearing=6000.0)
    assert compare_pair(down, fuse, 2000.0, 5000.0).standing == "broken"
