"""Writes a large invented system file for benchmarks: bars and branches that all pass.

    python tests/benchmarks/make_system.py [--circuits N | --lines N] [--loops SHARE] [FILE]

Every branch has a fuse and a cable; every tenth circuit feeds a bar of its own that the next nine
hang on. `--loops` closes that share of the bars into rings through a second feed, whose fuses are
then no longer selective.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from pathlib import Path

#: Circuits on one bar, the one that feeds it included.
ON_A_BAR = 10
HEAD = """\
# Invented; made by tests/benchmarks/make_system.py, {circuits} circuits.

system: {circuits} circuits
nominal_voltage: 24 V
places:
  locker: {{ambient: 35 °C}}
sources:
  port pack: {{part: bench-pack, place: locker}}
  starboard pack: {{part: bench-pack, place: locker}}
  fore pack: {{part: bench-pack, place: locker}}
  aft pack: {{part: bench-pack, place: locker}}
conditions:
  one pack out: {{without: [starboard pack]}}
"""
PARTS = """\
parts:
  bench-pack: {kind: battery, chemistry: lfp, nominal_voltage: 25.6 V, capacity: 920 Ah,
    charge_voltage: 28.8 V, emf: {min: 25.6 V, max: 27.2 V}, resistance: {min: 4 mΩ, max: 8 mΩ},
    discharge: {continuous: 300 A, peak: {current: 600 A, time: 10 s}}, status: reviewed}
  bench-bar: {kind: busbar, rated_current: 2000 A, voltage: 60 V,
    short_time: {current: 40 kA, time: 1 s}, status: reviewed}
"""
CABLE = """\
  bench-cable-{area}: {{kind: cable, area: {area} mm², stranding: class 5, voltage: 600 V,
    insulation_temperature: 105 °C, outside_diameter: {over} mm, status: reviewed}}
"""
FUSE = """\
  bench-fuse-{rating}: {{kind: fuse, family: class-t, rated_current: {rating} A,
    rated_voltage: 125 V, interrupt_ratings: [{{voltage: 125 V, current: 50 kA}}],
    resistance: {{min: {least:g} mΩ, max: {most:g} mΩ}},
    curve: {{min_melt: [{min_melt}],
      max_clear: [{max_clear}]}},
    terminal_limit: 105 °C, derating: [[25 °C, 100 %], [45 °C, 95 %]], status: reviewed}}
"""
#: Invented band of every fuse: multiple of the rating, time [s].
MIN_MELT = ((1.1, 14400.0), (1.35, 200.0), (2.0, 6.0), (3.0, 0.6), (5.0, 0.07), (10.0, 0.007))
MAX_CLEAR = ((1.35, 600.0), (2.0, 20.0), (3.0, 2.0), (5.0, 0.22), (12.0, 0.012))
#: Area [mm²], outside diameter [mm].
CABLES = ((120, 17.2), (35, 10), (6, 5.1))
PACKS = ("port", "starboard", "fore", "aft")


def _parts() -> Iterator[str]:
    yield PARTS
    yield from (CABLE.format(area=area, over=over) for area, over in CABLES)
    for rating in (400, 100, 20):
        least = 20 / rating
        curves = {
            side: ", ".join(f"[{rating * times:g} A, {time:g} s]" for times, time in points)
            for side, points in (("min_melt", MIN_MELT), ("max_clear", MAX_CLEAR))
        }
        yield FUSE.format(rating=rating, least=least, most=2 * least, **curves)


def make_system(circuits: int, loops: float = 0.0) -> str:
    """The text of a system with so many circuits beside the packs' and the rings' second feeds.

    loops -- share of the sub-bars that have a second feed
    """
    bars = max(1, -(-circuits // ON_A_BAR))
    return "".join(
        (HEAD.format(circuits=circuits), *_busbars(bars), *_circuits(circuits, bars, loops),
         *_equipment(circuits), *_parts())
    )  # fmt: skip


def circuits_for(lines: int) -> int:
    """How many circuits make a file of about that many lines."""
    low, high = 1, max(2, lines)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if lines_of(middle) <= lines else (low, middle)
    return low


def lines_of(circuits: int) -> int:
    """How many lines a system of so many circuits has."""
    return make_system(circuits).count("\n")


def _busbars(bars: int) -> Iterator[str]:
    yield "busbars:\n  bar 0: {part: bench-bar, place: locker}\n"
    for bar in range(1, bars):
        yield f"  bar {bar}: {{part: bench-bar, place: locker}}\n"


def _circuits(circuits: int, bars: int, loops: float) -> Iterator[str]:
    yield "circuits:\n"
    for side in PACKS:
        yield _circuit(f"{side} feed", f"{side} pack", "bar 0", 400, 120, 0.6)
    for number in range(1, circuits + 1):
        bar, place = divmod(number, ON_A_BAR)
        if place or bar >= bars:
            at = f"bar {min(bar, bars - 1)}"
            yield _circuit(f"branch {number}", at, f"pump {number}", 20, 6, 1 + number % 7)
            continue
        yield _circuit(f"feed {bar}", "bar 0", f"bar {bar}", 100, 35, 2)
        if bar > 1 and int(bar * loops) > int((bar - 1) * loops):
            yield _circuit(f"ring {bar}", f"bar {bar - 1}", f"bar {bar}", 100, 35, 3)


def _circuit(name: str, start: str, end: str, fuse: int, area: int, length: float) -> str:
    return (
        f"  {name}:\n    from: {start}\n    to: {end}\n    place: locker\n"
        f"    parts: [{{fuse: bench-fuse-{fuse}, distance: 120 mm}}, "
        f"{{cable: bench-cable-{area}, length: {length} m}}]\n"
    )


def _equipment(circuits: int) -> Iterator[str]:
    yield "equipment:\n"
    bars = max(1, -(-circuits // ON_A_BAR))
    for number in range(1, circuits + 1):
        bar, place = divmod(number, ON_A_BAR)
        if not (place == 0 and bar < bars):
            current = f"0.{1 + number % 9} A"
            yield f"  pump {number}: {{current: {current}, critical: no, place: locker}}\n"


def main() -> None:
    """Write the system to a file, or to the terminal."""
    parser = argparse.ArgumentParser(description=__doc__)
    size = parser.add_mutually_exclusive_group()
    size.add_argument("--circuits", type=int)
    size.add_argument("--lines", type=int, default=2000)
    parser.add_argument("--loops", type=float, default=0.0)
    parser.add_argument("file", nargs="?")
    asked = parser.parse_args()
    text = make_system(asked.circuits or circuits_for(asked.lines), asked.loops)
    if asked.file:
        Path(asked.file).write_text(text, encoding="utf-8")
    else:
        sys.stdout.write(text)


if __name__ == "__main__":
    main()
