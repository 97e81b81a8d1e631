"""A third battery three years later: facts by hand, and what they do to margins.

Each battery with its loop: 2.2184, 2.5096 and 2.8008 mΩ, so 0.45078, 0.39847 and 0.35704 S × 10³.
300 A are shared 159.2 : 140.8 by two (sum 0.84925), 112.1 : 99.1 : 88.8 by three (1.20629).
13.6 V into a fault on the post: 13.6 × 849.25 = 11.55 kA, then 13.6 × 1206.29 = 16.41 kA.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

TWO = "  battery 2: {part: pack}\n"
LEAD = "{joint: 0.5096 mΩ, name: loop 2}]}\n"
THIRD = (
    (TWO, TWO + "  battery 3: {part: pack}\n"),
    (LEAD, LEAD + "  lead 3: {from: battery 3, to: post, parts: [{fuse: each-300, name: fuse 3, "
     "distance: 50 mm}, {joint: 0.8008 mΩ, name: loop 3}]}\n"),
)  # fmt: skip


def move(comparison: Any, rule: str, subject: str) -> Any:
    """What happened to a rule's verdict on a subject."""
    (found,) = (
        each
        for each in comparison.moves
        if (each.rule, each.subject) == (f"fundamentals/{rule}", subject)
    )
    return found


def current(comparison: Any, where: str, quantity: str) -> tuple[float, float]:
    """A current as it was and as it is."""
    (found,) = (
        each for each in comparison.currents if (each.where, each.quantity) == (where, quantity)
    )
    return found.before, found.after


def test_the_main_fuse_newly_fails_at_its_interrupt_rating(differs: Callable[..., Any]) -> None:
    """14 kA / 11.55 kA = 1.212, then 14 kA / 16.41 kA = 0.853."""
    comparison = differs(*THIRD)
    found = move(comparison, "interrupt-rating", "main fuse")
    assert found.how == "new fail"
    assert found.before.margin == pytest.approx(14e3 / (13.6 * 849.25), rel=1e-4)
    assert found.after.margin == pytest.approx(14e3 / (13.6 * 1206.29), rel=1e-4)
    assert [each.subject for each in comparison.of("new fail")] == ["main fuse"]
    assert comparison.exit_status == 1


def test_currents_are_shared_anew(differs: Callable[..., Any]) -> None:
    comparison = differs(*THIRD)
    assert current(comparison, "fuse 1", "load_A") == pytest.approx((159.2, 112.1), abs=0.05)
    assert current(comparison, "fuse 2", "load_A") == pytest.approx((140.8, 99.1), abs=0.05)
    assert current(comparison, "post", "fault_max_A") == pytest.approx((11550, 16406), abs=5)


def test_each_battery_fuse_sees_what_the_others_feed_back(differs: Callable[..., Any]) -> None:
    """Fuse 1: its own battery 13.6 V / 2.0 mΩ = 6.80 kA; with three, two feed back through its
    loop: 13.6 V / (1 / (398.47 + 357.04) + 0.2184 mΩ) = 13.6 V / 1.5420 mΩ = 8.820 kA.
    20 kA / 6.8 kA = 2.941, then 20 kA / 8.820 kA = 2.268."""
    found = move(differs(*THIRD), "interrupt-rating", "fuse 1")
    assert found.how == "eroded"
    assert found.before.margin == pytest.approx(20 / 6.8, rel=1e-4)
    back = 13.6 / (1 / (398.47 + 357.04) + 0.2184e-3)
    assert found.after.margin == pytest.approx(20e3 / back, rel=1e-4)


def test_the_batteries_have_more_to_spare(differs: Callable[..., Any]) -> None:
    """200 A / 159.2 A = 1.256, then 200 A / 112.1 A = 1.784."""
    found = move(differs(*THIRD), "battery-discharge", "battery 1")
    assert found.how == "improved"
    assert (found.before.margin, found.after.margin) == pytest.approx((1.256, 1.784), abs=5e-4)


def test_what_came_is_told_and_its_verdicts_are_new(differs: Callable[..., Any]) -> None:
    comparison = differs(*THIRD)
    came = {(each.how, each.kind, each.name) for each in comparison.things}
    assert came == {
        ("added", "source", "battery 3"), ("added", "circuit", "lead 3"),
        ("added", "fuse", "fuse 3"), ("added", "joint", "loop 3"),
    }  # fmt: skip
    assert comparison.parts == ()
    assert move(comparison, "interrupt-rating", "fuse 3").how == "appeared"
    assert move(comparison, "device-load", "fuse 3").how == "newly unproven"
    assert comparison.renames == {}


def test_the_way_back_cures_and_takes_away(differs: Callable[..., Any]) -> None:
    comparison = differs(old=THIRD)
    assert move(comparison, "interrupt-rating", "main fuse").how == "cured"
    assert move(comparison, "interrupt-rating", "fuse 3").how == "vanished"
    assert comparison.of("new fail") == ()
    assert comparison.exit_status == 0


def test_a_threshold_hides_what_moves_less(differs: Callable[..., Any]) -> None:
    """Margins of the batteries rise by 42 %, that of fuse 1 falls by 23 %, of fuse 2 by 13 %."""
    told = differs(*THIRD, threshold=0.2)
    assert [each.subject for each in told.of("eroded")] == ["fuse 1"]
    assert {each.subject for each in told.of("improved")} == {"battery 1", "battery 2"}
    assert differs(*THIRD, threshold=0.5).of("improved") == ()
