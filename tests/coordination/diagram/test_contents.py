"""Everything is on the diagram, once, and nothing lies over anything."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from coordination.diagram.drawn import Page

from .conftest import DEMOS, RING, SMALL, findings, pages
from .geometry import (
    crossing_lines,
    data,
    outside,
    over_each_other,
    struck_through,
    through_bars,
)

CASES = [(path, name) for path in DEMOS for name in findings(path).studies]
CASES += [(path, "normal") for path in SMALL]


def label(value: object) -> str:
    return value.stem if isinstance(value, Path) else str(value)


@pytest.mark.parametrize(("path", "condition"), CASES, ids=label)
def test_every_element_and_point_is_there_once(path: Path, condition: str) -> None:
    system = findings(path).system
    things = [each.name for each in system.elements()]
    for group in (system.sources, system.busbars, system.equipment, system.converters):
        things += group
    points = {end for each in system.elements() for end in (each.start, each.end)}
    points |= {f"{name}.{side}" for name in system.converters for side in ("input", "output")}
    points |= {*system.sources, *system.busbars, *system.equipment}
    sheets = pages(path, condition)
    assert sorted(name for page in sheets for name in data(page, "element")) == sorted(things)
    assert sorted(name for page in sheets for name in data(page, "point")) == sorted(points)


@pytest.mark.parametrize(("path", "condition"), CASES, ids=label)
def test_nothing_lies_over_anything(path: Path, condition: str) -> None:
    for page in pages(path, condition):
        assert over_each_other(page) == []
        assert struck_through(page) == []
        assert through_bars(page) == 0
        assert crossing_lines(page) == 0
        assert outside(page) == []


def test_the_tests_would_see_words_over_words_and_lines_through_them() -> None:
    from coordination.diagram.ink import Stroke, Words

    frame = Stroke(((0.0, 0.0), (200.0, 0.0), (200.0, 90.0), (0.0, 90.0)), "frame", closed=True)
    bar = Stroke(((20.0, 60.0), (120.0, 60.0), (120.0, 66.0), (20.0, 66.0)), "bar", closed=True)
    line = Stroke(((50.0, 10.0), (50.0, 80.0)), "wire")
    marks = (frame, bar, line, Words(30.0, 30.0, "main fuse"), Words(60.0, 32.0, "bus"), bar)
    page = Page("", "", marks, 200.0, 90.0)
    assert over_each_other(page) == [("main fuse", "bus")]
    assert ("main fuse", "wire") in struck_through(page)
    assert through_bars(page) == 2
    assert crossing_lines(page) == 1
    assert outside(Page("", "", (frame, Words(190.0, 30.0, "main fuse")), 200.0, 90.0)) != []


TALL = """\
system: tall
nominal_voltage: 24 V
sources: {{bank: {{part: bank}}}}
busbars: {{bus: {{part: bar}}}}
equipment: {{{loads}}}
circuits:
  feed: {{from: bank, to: bus, parts: [{{fuse: f}}]}}
  long: {{from: bus, to: lamp 0, parts: [{chain}]}}
{circuits}
parts:
  bank"""


def test_a_chain_too_long_for_a_sheet_makes_the_sheet_longer(
    written: Callable[[str], tuple[Page, ...]],
) -> None:
    chain = ", ".join(["{fuse: f}"] * 24)
    more = range(1, 4)
    text = TALL.format(
        loads=", ".join(f"lamp {number}: {{current: 1 A}}" for number in (0, *more)),
        chain=chain,
        circuits="\n".join(
            f"  c{n}: {{from: bus, to: lamp {n}, parts: [{{cable: c, length: 1 m}}]}}" for n in more
        ),
    ) + RING.read_text(encoding="utf-8").partition("parts:\n  bank")[2]
    (page,) = written(text)
    assert len(data(page, "element")) == 1 + 1 + 4 + 1 + 24 + 3
    assert page.height > 297 / 25.4 * 96
    assert outside(page) == []
    assert over_each_other(page) == []
