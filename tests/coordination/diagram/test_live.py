"""What no switch turns off."""

from __future__ import annotations

from pathlib import Path

import pytest

from coordination.schedules.alive import kept_on, live
from coordination.study.always_live import live_points

from .conftest import DEMOS, RING, SYSTEMS, findings, pages
from .geometry import strokes_of


def test_a_battery_keeps_all_up_to_the_first_hand_switch_live() -> None:
    found = live_points(findings(SYSTEMS / "tender-planted.yaml").system)
    # by the file: the packs' own contactors are no hand switches, the house switch is
    assert {"port pack", "pack bus", "always-on bus", "bilge pump 1", "start battery"} <= found.kept
    assert not {"main bus", "inverter", "crane winch"} & found.kept
    # fed through the converter from the start battery, all the same
    assert {"main bus", "inverter", "crane winch"} <= found.fed


def test_a_switch_keeps_what_is_behind_it_dead() -> None:
    found = live_points(findings(RING).system)
    assert "trailer relay" not in found.kept
    assert "trailer lamp" not in found.kept | found.fed
    assert "spare charger.output" in found.fed


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_labels_and_diagram_agree(path: Path) -> None:
    system = findings(path).system
    found = live_points(system)
    assert found.kept == kept_on(system)
    assert found.kept | found.fed == live(system)


def test_what_is_always_live_is_a_double_line() -> None:
    marks = pages(SYSTEMS / "van-planted.yaml")[0].marks[1:]
    upright = [
        each for each in strokes_of(marks) if len(each.points) == 2 and each.style == "live"
    ]
    lines = sorted((each.points[0][0], each.points[0][1], each.points[1][1]) for each in upright)
    assert len(lines) % 2 == 0
    for x, top, bottom in lines:
        pair = [
            other
            for other in lines
            if other[1:] == (top, bottom) and abs(abs(other[0] - x) - 3.2) < 0.01
        ]
        assert pair, "each of the two lines has its fellow"
