"""Systems of any shape: bars, taps, rings, converters and sources joined at random."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from random import Random

import pytest

from coordination.checking import Request, prepare, studies_of
from coordination.diagram.cells import Maker
from coordination.diagram.drawn import Page, drawn_pages
from coordination.diagram.marking import Verdict

from .conftest import RING
from .geometry import crossing_lines, data, outside, over_each_other, struck_through, through_bars

PARTS = RING.read_text(encoding="utf-8").partition("parts:\n  bank")[2]
CHAINS = (
    "{fuse: f}", "{cable: c, length: 2 m}", "{breaker: b}", "{disconnect: s}", "{joint: 0.1 mΩ}",
    "{disconnect: r, normally: open}", "{channel: ch}", "{cable: c, length: 12.5 m, runs: 2}",
)  # fmt: skip
NAMES = ("bus", "a bar with quite a long name", "Ω", "navigation", "W" * 30, "iiii")


def text(random: Random) -> str:
    """A system file with everything joined somehow."""
    bars = [f"{random.choice(NAMES)} {n}" for n in range(random.randint(1, 7))]
    batteries = [f"battery {n}" for n in range(random.randint(0, 3))]
    limited = [f"charger {n}" for n in range(random.randint(0 if batteries else 1, 2))]
    loads = [f"load {n}" for n in range(random.randint(1, 12))]
    converters = [f"converter {n}" for n in range(random.randint(0, 2))]
    joined = [*batteries, *limited, *loads, *(f"{c}.input" for c in converters)]
    joined += [f"{c}.output" for c in converters if random.random() < 0.8]
    ends = [(name, random.choice(bars)) for name in joined]
    ends += [(bar, random.choice(bars)) for bar in bars]
    for _ in range(random.randint(0, 5)):
        ends.append((random.choice([*joined, *bars]), random.choice([*joined, *bars])))
    ends = [(a, b) if random.random() < 0.5 else (b, a) for a, b in ends if a != b]
    if {*bars} - {end for pair in ends for end in pair}:
        ends += [(bar, loads[0]) for bar in bars]
    return "".join(_lines(random, bars, batteries, limited, loads, converters, ends))


def _lines(
    random: Random, bars: list[str], batteries: list[str], limited: list[str], loads: list[str],
    converters: list[str], ends: list[tuple[str, str]],
) -> Iterator[str]:  # fmt: skip
    yield "system: any\nnominal_voltage: 24 V\nsources:\n"
    yield from (f"  {name}: {{part: bank}}\n" for name in batteries)
    yield from (f"  {name}: {{current_limited: 20 A, voltage: 28 V}}\n" for name in limited)
    yield "busbars:\n"
    yield from (f"  {name}: {{part: bar}}\n" for name in bars)
    yield "equipment:\n"
    yield from (f"  {name}: {{current: {random.randint(1, 90)} A}}\n" for name in loads)
    if converters:
        yield "converters:\n"
    for name in converters:
        yield f"  {name}: {{output_current: 10 A, output_voltage: 28 V, efficiency: 90 %}}\n"
    yield "circuits:\n"
    taps: list[str] = []
    for number, (start, end) in enumerate(ends):
        begin = random.choice(taps) if taps and random.random() < 0.1 else start
        chain = random.choices(CHAINS, k=random.randint(1, 4))
        yield f"  circuit {number}: {{from: {begin}, to: {end}, parts: [{', '.join(chain)}]}}\n"
        if begin == start:
            taps += [f"circuit {number}@{n}" for n in range(1, len(chain))]
        else:
            yield f"  again {number}: {{from: {start}, to: {end}, parts: [{{fuse: f}}]}}\n"
    yield "parts:\n  bank"
    yield PARTS


def drawn(path: Path, content: str, seed: int) -> tuple[tuple[Page, ...], list[str]]:
    """The sheets of a system, and all that must be on them."""
    path.write_text(content, encoding="utf-8")
    request = Request(str(path))
    system, packs = prepare(request)
    study = studies_of(request, system, packs)["normal"]
    random = Random(seed)
    names = [each.name for each in system.elements()]
    for group in (system.busbars, system.equipment, system.sources, system.converters):
        names += group
    verdicts = {
        name: Verdict(random.choice(("fail", "unproven", "waived")), "some rule")
        for name in names
        if random.random() < 0.4
    }
    rows = (("System", system.name),)
    return drawn_pages(Maker(study, verdicts, links=False), rows), names


@pytest.mark.parametrize("seed", range(12))
def test_any_shape_is_drawn_whole_and_legibly(seed: int, tmp_path: Path) -> None:
    content = text(Random(seed))
    sheets, names = drawn(tmp_path / "any.yaml", content, seed)
    assert sorted(name for page in sheets for name in data(page, "element")) == sorted(names)
    for page in sheets:
        assert over_each_other(page) == []
        assert struck_through(page) == []
        assert through_bars(page) == 0
        assert crossing_lines(page) == 0
        assert outside(page) == []
