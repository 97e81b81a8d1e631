"""`fusewright pairs`: the selectivity table as text, markdown and JSON."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

CHECKOUT = Path(__file__).parents[3]
LAUNCH = CHECKOUT / "tests" / "coordination" / "charts" / "launch.yaml"
SYSTEMS = CHECKOUT / "fixtures" / "systems"


def cells(text: str, down: str, up: str) -> str:
    (line,) = (
        each for each in text.splitlines() if each.startswith(down) and f"  {up}  " in each
    )
    return " ".join(line[len(down) :].split())


def test_each_condition_has_its_table(fusewright: Any) -> None:
    """The lamp fuse clears 14.3 kA (27.2 V / 1.9087 mΩ) in a tenth of the main fuse's melting time.

    Gates: 60² × 0.1 = 360 A²s at most, against 262 000 A²s.
    """
    ended = fusewright("pairs", LAUNCH)
    assert ended.status == 0
    normal, _, out = ended.out.partition("Condition one pack out")
    assert cells(normal, "lamp fuse", "main fuse") == "main fuse 100% 14.3 kA - 14.3 kA pass"
    assert cells(normal, "lamp fuse", "pack 1 fuse").startswith("pack 1 fuse 50% ")
    assert cells(normal, "winch breaker", "main fuse").endswith("14.3 kA fail")
    assert cells(normal, "main fuse", "pack 2 fuse").endswith("either")
    assert "lamp fuse      pack 2 fuse" not in out
    assert "  - bolt-300: minimum melting curve or melting I²t" in normal


@pytest.mark.parametrize("system", ["tender-planted", "cabin-cured", "van-cured"])
@pytest.mark.parametrize("width", [80, 60])
def test_no_line_is_wider_than_asked(system: str, width: int, fusewright: Any) -> None:
    text = fusewright("pairs", SYSTEMS / f"{system}.yaml", "--width", width).out
    # Seven columns need 62; a narrower table is not squeezed further.
    assert max(map(len, text.splitlines())) <= max(width, 80 if width == 80 else 78)


def test_json_holds_the_same_in_si(fusewright: Any) -> None:
    answer = json.loads(fusewright("pairs", LAUNCH, "--format", "json").out)
    assert answer["system"] == "Chart launch"
    assert set(answer["conditions"]) == {"normal", "one pack out"}
    pairs = {
        (each["downstream"], each["upstream"]): each
        for each in answer["conditions"]["normal"]["pairs"]
    }
    lamp = pairs["lamp fuse", "main fuse"]
    assert lamp["verdict"] == "pass"
    assert lamp["fault_max_A"] == pytest.approx(14_251, rel=2e-4)
    assert lamp["low_A"] == 13.5
    assert lamp["proven_up_to_A"] == lamp["fault_max_A"]
    assert (lamp["first_gap_A"], lamp["missing"]) == (None, [])
    assert lamp["fault_towards"] == "lamp feed@1"
    winch = pairs["winch breaker", "main fuse"]
    assert winch["verdict"] == "fail"
    assert winch["proven_up_to_A"] is None
    assert pairs["winch breaker", "pack 1 fuse"]["share"] == pytest.approx(0.5)
    assert pairs["main fuse", "pack 1 fuse"]["either_may_open"] is True


def test_markdown_is_a_table(fusewright: Any) -> None:
    lines = fusewright("pairs", LAUNCH, "--format", "markdown", "--condition", "normal").out
    assert lines.startswith("## Condition normal\n\n| downstream")
    assert "| lamp fuse     | main fuse   |    100% | 14.3 kA |" in lines


def test_a_system_without_two_devices_says_so(tmp_path: Path, fusewright: Any) -> None:
    path = tmp_path / "one.yaml"
    path.write_text(
        "system: one\nnominal_voltage: 12 V\nsources: {bank: {part: battery-lfp-12v-100}}\n"
        "equipment: {lamp: {current: 1 A, critical: no}}\n"
        "circuits:\n  feed: {from: bank, to: lamp,\n"
        "    parts: [{cable: cable-4/0-awg-105c, length: 1 m}]}\n"
    )
    ended = fusewright("pairs", path)
    assert ended.status == 0
    assert "No two devices stand in series." in ended.out


def test_a_condition_that_is_none_is_answered_with_a_near_miss(fusewright: Any) -> None:
    ended = fusewright("pairs", LAUNCH, "--condition", "one pack ou")
    assert ended.status == 2
    assert "did you mean 'one pack out'?" in ended.err
