"""What a part states becomes what it promises, and no more; values by hand."""

from __future__ import annotations

import pytest

from catalogue.parts import Breaker, Fuse
from catalogue.records import Curve
from coordination.curves import Bound, Opening, melted_by, missing_sides, opening_from
from coordination.trace import Unknown

AVERAGE = ((200.0, 100.0), (1000.0, 0.1))


def opening(part, **also):
    made = opening_from(part, **also)
    assert isinstance(made, Opening)
    return made


def fuse(**fields):
    return Fuse(id="f", kind="fuse", **fields)


def test_a_part_without_a_curve_promises_nothing_and_says_what_is_missing():
    assert opening_from(fuse(rated_current=100.0)) == Unknown("opening time", ("f: curve",))


def test_an_average_less_its_tolerance_is_the_fastest_side():
    made = opening(fuse(curve=Curve(average_melt=AVERAGE, tolerance=0.1)))
    # 200 A - 10 % = 180 A, 1000 A - 10 % = 900 A
    assert [current for current, _ in made.fastest.points] == pytest.approx([180.0, 900.0])
    assert [time for _, time in made.fastest.points] == [100.0, 0.1]


def test_an_average_gives_no_clearing_time():
    part = fuse(curve=Curve(average_melt=AVERAGE, tolerance=0.1))
    assert opening(part).cleared_by(5000.0) == Bound(None, "not bounded")
    # 200 A + 10 %: melted by 100 s at 220 A, whatever the arc then takes
    assert melted_by(part).at(219.9).time is None
    assert melted_by(part).at(220.01).time == pytest.approx(100.0, rel=1e-3)
    assert melted_by(fuse(curve=Curve(fastest=AVERAGE))) is None
    cleared = Curve(average_melt=AVERAGE, tolerance=0.1, slowest=((1500.0, 0.2),))
    assert opening(fuse(curve=cleared)).cleared_by(1500.0) == Bound(0.2, "point")


def test_gates_and_lines_are_told_apart():
    points = ((100.0, 10.0), (1000.0, 0.1))
    line, gates = (opening(fuse(curve=Curve(slowest=points, gates=g))) for g in (False, True))
    # half way in log: sqrt(100 x 1000) = 316.2 A, sqrt(10 x 0.1) = 1 s; a gate promises 10 s
    assert line.cleared_by(316.2278).time == pytest.approx(1.0, rel=1e-5)
    assert gates.cleared_by(316.2278) == Bound(10.0, "gate")
    assert gates.standard_only()
    assert not line.standard_only()


def test_a_breaker_is_released_and_does_not_melt():
    curve = Curve(((80.0, 0.1),), ((240.0, 0.1),), True)
    made = opening(Breaker(id="b", kind="breaker", curve=curve), name="feed/2")
    assert made.name == "feed/2"
    assert made.cleared_by(6000.0).time == 0.1
    assert made.no_sooner_than(6000.0).time is None


def test_let_through_on_ac_is_left_out_where_it_does_not_hold():
    part = fuse(clearing_i2t=1e6, curve=Curve(slowest=((600.0, 600.0),)))
    # 10⁶ A²s at 20 kA: 2.5 ms; else 600 s (600 / 20 000)² = 0.54 s
    assert opening(part).cleared_by(20_000.0).time == pytest.approx(0.0025)
    assert opening(part, let_through=False).cleared_by(20_000.0).time == pytest.approx(0.54)
    bare = fuse(clearing_i2t=1e6)
    assert opening_from(bare, let_through=False) == Unknown("opening time", ("f: curve",))


def test_what_a_proof_would_need():
    assert missing_sides(fuse(curve=Curve(slowest=((600.0, 600.0),)))) == (
        "f: minimum melting curve", "f: melting I²t", "f: clearing I²t",
    )  # fmt: skip
    breaker = Breaker(id="b", kind="breaker", curve=Curve(((80.0, 0.1),)))
    assert missing_sides(breaker) == ("b: maximum trip curve",)
