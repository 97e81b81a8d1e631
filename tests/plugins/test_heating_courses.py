"""A leg warmed by several devices' parts of a current, by hand.

10 mm² of copper for 70 °C in air of 30 °C, 50 A for good: its time constant is
3.45 MJ/(m³K) × (10 mm²)² × 40 K / (17.241 nΩm × 304.5 / 254.5 × (50 A)²) = 267.6 s.
"""

from __future__ import annotations

from math import inf
from types import SimpleNamespace

import pytest
from fusewright_fundamentals.heating import Heating
from fusewright_fundamentals.heating_steps import sides
from fusewright_fundamentals.worst_course import worst_course

from coordination.trace import Derived

AMBIENT = Derived("ambient", "T_a", 30.0, "°C")


def band(name, share, seconds):
    device = SimpleNamespace(name=name, part=SimpleNamespace(id=name))
    clearer = SimpleNamespace(device=device, share=Derived("share", "s", share, ""))
    return SimpleNamespace(clearer=clearer, share=share, lasts=lambda _: seconds)


def heating(current, *bands, initial=30.0, limit=1e9):
    leg = SimpleNamespace(
        name="positive", runs=1, area=Derived("area", "S", 10e-6, "m²"),
        insulation_temperature=Derived("rated", "T_r", 70.0, "°C"),
    )  # fmt: skip
    span = SimpleNamespace(
        bands=bands, highest=Derived("fault", "I", current, "A"), least=current,
        corners=lambda: (), jumps=frozenset,
    )  # fmt: skip
    times = {each.clearer.device.name: each.lasts(0.0) for each in bands}
    study = SimpleNamespace(
        ambient=lambda _: AMBIENT,
        clearing=lambda device, _: SimpleNamespace(
            steady=Derived("clearing", "t", times[device.name], "s")
        ),
    )
    return Heating(
        SimpleNamespace(name="cable"), study, span, leg,
        Derived("before", "T_i", initial, "°C"), Derived("allowed", "T_f", 160.0, "°C"),
        Derived("limit", "J", limit, "A²s"), Derived("ampacity", "I_z", 50.0, "A"),
    )  # fmt: skip


def test_what_never_ends_flows_beside_what_ends_quickly():
    # 1000 A flow for 4 s, 900 A of them through the device that then opens: 1000² × 4.
    leg = heating(1000.0, band("opens", 0.9, 4.0), band("holds", 0.1, None))
    assert leg.course(1000.0).energy == pytest.approx(4e6)
    assert sides(leg, leg.course(1000.0))[0].value == pytest.approx(4e6)


def test_what_lasts_flows_beside_what_ends_quickly():
    leg = heating(1000.0, band("opens", 0.9, 4.0), band("slow", 0.1, 60.0))
    assert leg.course(1000.0).energy == pytest.approx(4e6)


def test_one_part_after_the_other():
    # 300 A lead to 1470 °C: after 10 s 1470 − 1440 × e^(−10 / 267.6) = 82.8 °C; from there 60 A
    # lead to 87.6 °C: after another 990 s 87.6 − 4.8 × e^(−990 / 267.6) = 87.5 °C.
    leg = heating(300.0, band("first", 0.8, 10.0), band("second", 0.2, 1000.0))
    found, required = sides(leg, leg.course(300.0))
    assert found.value == pytest.approx(87.5, abs=0.1)
    assert required.value == 160.0
    assert leg.course(300.0).severity == pytest.approx(87.5 / 160, abs=0.001)


def test_the_hottest_moment_may_be_when_the_first_part_ends():
    # 500 A lead to 4030 °C: after 10 s 4030 − 4000 × e^(−10 / 267.6) = 176.7 °C; then 25 A cool it.
    leg = heating(500.0, band("first", 0.95, 10.0), band("second", 0.05, 1000.0))
    found, _ = sides(leg, leg.course(500.0))
    assert found.value == pytest.approx(176.7, abs=0.2)
    assert "first" in found.quantity


def test_what_never_ends_warms_beside_what_lasts():
    # 140 A lead to 343.6 °C: after 100 s 343.6 − 313.6 × e^(−100 / 267.6) = 127.8 °C.
    leg = heating(140.0, band("opens", 0.5, 100.0), band("holds", 0.5, None))
    assert not leg.borne(leg.course(140.0))
    assert sides(leg, leg.course(140.0))[0].value == pytest.approx(127.8, abs=0.1)


def test_nothing_that_ends_does_no_harm_even_to_a_leg_that_withstands_nothing():
    # Where only 1 A and less stay for good, 200 A that must be cleared are worse.
    leg = heating(1.0, band("holds", 1.0, None), limit=0.0)
    assert leg.course(1.0).severity == 0.0
    assert heating(200.0, band("opens", 1.0, 1.0), limit=0.0).course(200.0).severity == inf


def test_the_worst_is_what_must_be_cleared_even_where_nothing_is_withstood():
    leg = heating(200.0, band("opens", 1.0, 1.0), limit=0.0)
    assert worst_course(leg).severity == inf
