"""What stands beside the symbols, against the demo systems' own files and hand calculations."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

import pytest

from coordination.diagram.drawn import Page
from coordination.diagram.ink import Disc, Group, Mark, Stroke, bounds, words_of

from .conftest import RING, SYSTEMS, pages
from .geometry import strokes_of

TENDER = SYSTEMS / "tender-planted.yaml"
VAN = SYSTEMS / "van-planted.yaml"


def groups(marks: Iterable[Mark]) -> Iterator[Group]:
    for mark in marks:
        if isinstance(mark, Group):
            yield mark
            yield from groups(mark.marks)


def group(sheets: tuple[Page, ...], name: str) -> Group:
    found = [
        each for page in sheets for each in groups(page.marks) if ("element", name) in each.data
    ]
    assert len(found) == 1
    return found[0]


def label(path: Path, name: str, condition: str = "normal") -> list[str]:
    return [each.text for each in words_of([group(pages(path, condition), name)])]


@pytest.mark.parametrize(
    ("path", "name", "lines"),
    [
        # 28.8 V is above 14 V: the row of 32 V counts, as the file lists it
        (TENDER, "port fuse", ["port fuse", "single-bolt 200 A", "5 kA at 32 V"]),
        (TENDER, "main fuse", ["main fuse", "class-t 300 A", "20 kA at 125 V"]),
        (TENDER, "winch breaker", ["winch breaker", "thermal breaker 120 A", "3 kA at 60 V"]),
        (TENDER, "port feed/2", ["port feed/2", "70 mm² · 0.5 m"]),
        (
            TENDER,
            "inverter cable",
            ["inverter cable", "95 mm² · 1.2 m", "return 35 mm² · 1.2 m"],
        ),
        (TENDER, "port contactor", ["port contactor", "remote switch 200 A"]),
        (TENDER, "parallel switch", ["parallel switch", "switch 300 A", "open"]),
        (TENDER, "dc-dc", ["dc-dc", "28.4 V, 40 A out", "isolated"]),
        (TENDER, "charger output/1", ["charger output/1", "joint 0.1 mΩ"]),
        (
            SYSTEMS / "small" / "f15-third-battery.yaml",
            "link 1/1",
            ["link 1/1", "joint 0.20 to 0.33 mΩ"],
        ),
        (TENDER, "alternator", ["alternator", "at most 80 A", "28.2 V"]),
        (TENDER, "port pack", ["port pack", "25.6 V, 230 Ah", "2.7 to 5.1 mΩ"]),
        (TENDER, "main bus", ["main bus", "busbar 1000 A"]),
        (TENDER, "inverter", ["inverter", "3000 W"]),
        (TENDER, "bilge pump 1", ["bilge pump 1", "6 A", "critical"]),
        (TENDER, "starter", ["starter", "engine starter"]),
        (VAN, "dc-dc input cable", ["dc-dc input cable", "16 mm² · 6 m", "return 1.5 mΩ"]),
        (RING, "lamp feed/2", ["lamp feed/2", "35 mm² · 3 m", "return unknown"]),
        (RING, "heater feed/1", ["heater feed/1", "2 × 35 mm² · 3 m"]),
        (RING, "aft feed/1", ["aft feed/1", "thermal breaker 100 A", "no rating at 28.8 V"]),
        (RING, "radio feed/1", ["radio feed/1", "electronic output 10 A"]),
        (SYSTEMS / "bench-60.yaml", "bank feed/2", ["bank feed/2", "4/0 AWG · 0.8 m"]),
    ],
)
def test_devices_and_cables_tell_their_ratings(path: Path, name: str, lines: list[str]) -> None:
    shown = [each for each in label(path, name) if each not in ("!", "?", "w")]
    assert shown[: len(lines)] == lines


def test_fault_currents_stand_at_their_points() -> None:
    # 13.6 V / 1.05 mΩ = 12.95 kA and 80 A from solar and converter; least by the study's own bound
    assert "13.0 / 6.53 kA" in label(VAN, "house battery")
    # the converter behind the ring's cable gives 10 A at most, and nothing in the least case
    dots = [
        [words.text for words in words_of([each])]
        for each in groups(pages(RING)[0].marks)
        if ("point", "spare charger.output") in each.data
    ]
    assert dots == [["spare", "charger.output", "10 / 0 A"]]


def test_an_open_switch_is_drawn_open_and_closed_where_a_condition_closes_it() -> None:
    for condition, slanted in (("normal", True), ("emergency parallel", False)):
        drawn = group(pages(TENDER, condition), "parallel switch")
        blades = [each for each in strokes_of([drawn]) if _length(each) > 15 and not each.closed]
        assert len(blades) == 1
        (x1, _), (x2, _) = blades[0].points
        assert (abs(x1 - x2) > 5) is slanted
        assert ("open" in label(TENDER, "parallel switch", condition)) is slanted


def _length(stroke: Stroke) -> float:
    (x1, y1), (x2, y2) = stroke.points[:2]
    return ((x1 - x2) ** 2 + (y1 - y2) ** 2) ** 0.5


def test_a_source_that_is_out_says_so() -> None:
    assert "out in this condition" in label(TENDER, "port pack", "one pack out")
    assert "out in this condition" not in label(TENDER, "port pack", "normal")


def test_verdicts_are_told_apart_by_shape() -> None:
    diamond = group(pages(TENDER), "port fuse")
    (fail,) = [each for each in strokes_of([diamond]) if each.style == "fail"]
    assert (len(fail.points), fail.filled) == (4, True)
    (unproven,) = [
        each for each in strokes_of([group(pages(VAN), "house switch")]) if each.style == "unproven"
    ]
    assert (len(unproven.points), unproven.filled) == (3, False)
    cured = group(pages(SYSTEMS / "tender-cured.yaml"), "port fuse")
    (ring,) = [each for each in cured.marks if isinstance(each, Disc) and each.style == "waived"]
    assert not ring.filled
    assert "fundamentals/interrupt-rating" in diamond.title
    passing = group(pages(TENDER), "alternator fuse")
    styles = {each.style for each in strokes_of([passing])}
    assert styles == {"symbol"}


def test_a_busbar_keeps_the_order_that_the_file_gives(
    written: Callable[[str], tuple[Page, ...]],
) -> None:
    text = VAN.read_text(encoding="utf-8")
    bar = "fuse block: {part: demo-bar-100, place: living space"
    order = "order: [block feed, pump branch, lights branch, heater branch, fridge branch]"
    assert bar in text
    for content, names in (
        (text, ["fridge fuse", "heater fuse", "pump fuse", "lights fuse"]),
        (
            text.replace(bar, f"{bar}, {order}"),
            ["pump fuse", "lights fuse", "heater fuse", "fridge fuse"],
        ),
    ):
        sheets = written(content)
        places = [bounds([group(sheets, name)]).left for name in names]
        assert places == sorted(places)
