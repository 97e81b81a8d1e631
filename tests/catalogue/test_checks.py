"""The checks in words agree with the CHECKs of the tables, and name the field."""

from __future__ import annotations

import pytest

from catalogue.checks import problems_of
from catalogue.parts import (
    Band,
    Battery,
    Breaker,
    BusbarPart,
    Cable,
    Channel,
    CurrentFor,
    Curve,
    Discharge,
    Disconnect,
    Fuse,
    InterruptRating,
)

POINTS = ((400.0, 10.0), (600.0, 1.0))
WRONG = [
    (Fuse(id="x", kind="fuse", rated_current=-1.0), "rated_current"),
    (Fuse(id="x", kind="fuse", rated_current=0.0), "rated_current"),
    (Fuse(id="x", kind="fuse", rated_voltage=float("nan")), "rated_voltage"),
    (Fuse(id="x", kind="fuse", rated_voltage=float("inf")), "rated_voltage"),
    (Fuse(id="x", kind="fuse", terminal_limit=-280.0), "terminal_limit"),
    (Fuse(id="x", kind="fuse", terminal_limit=float("nan")), "terminal_limit"),
    (Fuse(id="x", kind="fuse", resistance=Band(2.0, 1.0)), "resistance"),
    (Fuse(id="x", kind="fuse", resistance=Band(-1.0, 1.0)), "resistance.min"),
    (Fuse(id="x", kind="fuse", resistance=Band(float("nan"), 1.0)), "resistance"),
    (Battery(id="x", kind="battery", resistance=Band(0.0, 1.0)), "resistance.min"),
    (Battery(id="x", kind="battery", emf=Band(0.0, 1.0)), "emf.min"),
    (Battery(id="x", kind="battery", cells=0), "cells"),
    (Battery(id="x", kind="battery", chemistry="coal"), "chemistry"),
    (Battery(id="x", kind="battery", discharge=Discharge()), "discharge"),
    (
        Battery(id="x", kind="battery", discharge=Discharge(None, CurrentFor(1.0, -1.0))),
        "discharge.peak.time",
    ),
    (Cable(id="x", kind="cable", awg="5/0"), "awg"),
    (Cable(id="x", kind="cable", awg="4/0", area=95e-6), "area"),
    (Cable(id="x", kind="cable", resistance_20c=Band(0.0, 1.0)), "resistance_20c.min"),
    (BusbarPart(id="x", kind="busbar", short_time=CurrentFor(-1.0, 1.0)), "short_time.current"),
    (Breaker(id="x", kind="breaker", poles=0), "poles"),
    (Channel(id="x", kind="channel", trip_current=-5.0), "trip_current"),
    (Disconnect(id="x", kind="disconnect", status="done"), "status"),
    (Disconnect(id="x", kind="disconnect", reviewed="2026-02-30"), "reviewed"),
    (Disconnect(id="x", kind="disconnect", description=" "), "description"),
    (Disconnect(id="x", kind="disconnect", notes="a\x00b"), "notes"),
    (Disconnect(id="x", kind="disconnect", notes="n" * 2_000_001), "notes"),
    (Disconnect(id="x", kind="disconnect", successor="y"), "successor"),
    (Disconnect(id="x", kind="disconnect", successor="y", status="draft"), "successor"),
    (Disconnect(id="x", kind="disconnect", successor="x", status="retired"), "successor"),
    (Disconnect(id="x", kind="disconnect", successor="a\nb", status="retired"), "successor"),
    (Disconnect(id="x", kind="disconnect", notes="\ud800"), "notes"),
    (
        Disconnect(id="x", kind="disconnect", intermittent=(CurrentFor(400.0, 0.0),)),
        "intermittent.0.time",
    ),
    (
        Fuse(id="x", kind="fuse", interrupt_ratings=(InterruptRating(32.0, 0.0),)),
        "interrupt_ratings.0.current",
    ),
    (
        Fuse(
            id="x",
            kind="fuse",
            interrupt_ratings=(InterruptRating(32.0, 1e3), InterruptRating(32.0, 2e3)),
        ),
        "interrupt_ratings",
    ),
    (Fuse(id="x", kind="fuse", derating=((40.0, 0.9), (50.0, 0.95))), "derating"),
    (Fuse(id="x", kind="fuse", derating=((40.0, 0.9), (30.0, 0.8))), "derating"),
    (Fuse(id="x", kind="fuse", derating=((40.0, 0.0),)), "derating.0.factor"),
    (Fuse(id="x", kind="fuse", curve=Curve(POINTS[::-1], ())), "curve.min_melt.1.current"),
    (
        Fuse(id="x", kind="fuse", curve=Curve((), ((4.0, 1.0), (6.0, 2.0)))),
        "curve.max_clear.1.time",
    ),
    (Breaker(id="x", kind="breaker", curve=Curve(((4.0, 0.0),), ())), "curve.min_trip.0.time"),
    # Open by 1 s at 300 A, so by 1 s at 400 A; it cannot also hold for 10 s there.
    (Fuse(id="x", kind="fuse", curve=Curve(POINTS, ((300.0, 1.0),))), "curve.min_melt.0"),
]


@pytest.mark.parametrize(("part", "path"), WRONG)
def test_the_checks_in_words_name_the_field(part, path):
    assert path in [problem.path for problem in problems_of(part)]


def test_a_sound_part_has_no_problems():
    part = Fuse(
        id="x", kind="fuse", rated_current=300.0, resistance=Band(0.0, 1e-3),
        curve=Curve(POINTS, ((500.0, 20.0), (900.0, 0.5))), derating=((40.0, 1.0), (60.0, 0.8)),
    )  # fmt: skip
    assert problems_of(part) == ()


@pytest.mark.parametrize("sign", ["\x1b", "\u202e", "\r", "\x7f", "\u2028", "\ufeff"])
def test_signs_that_would_move_a_cursor_are_a_text_all_the_same(sign):
    assert problems_of(Disconnect(id="x", kind="disconnect", notes=f"a{sign}b")) == ()
