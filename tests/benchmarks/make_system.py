"""Writes a large invented system file for benchmarks: a tree of bars and branches, with some loops.

    python tests/benchmarks/make_system.py [--circuits N | --lines N] [--loops SHARE] [FILE]

Every branch has a fuse and a cable; every tenth circuit feeds a bar of its own that the next nine
hang on. `--loops` closes that share of the bars into rings through a second feed.
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
conditions:
  one pack out: {{without: [starboard pack]}}
"""
PARTS = """\
parts:
  bench-pack: {kind: battery, nominal_voltage: 25.6 V, capacity: 920 Ah, charge_voltage: 28.8 V,
    emf: {min: 25.6 V, max: 27.2 V}, resistance: {min: 4 mΩ, max: 8 mΩ},
    discharge: {continuous: 9000 A}, status: reviewed}
  bench-bar: {kind: busbar, rated_current: 9000 A, voltage: 60 V, status: reviewed}
  bench-fuse-400: {kind: fuse, family: class-t, rated_current: 400 A, rated_voltage: 125 V,
    interrupt_ratings: [{voltage: 125 V, current: 20 kA}], resistance: {min: 0.05 mΩ, max: 0.1 mΩ},
    terminal_limit: 105 °C, derating: [[25 °C, 100 %], [45 °C, 95 %]], status: reviewed}
  bench-fuse-20: {kind: fuse, family: class-t, rated_current: 20 A, rated_voltage: 125 V,
    interrupt_ratings: [{voltage: 125 V, current: 20 kA}], resistance: {min: 2 mΩ, max: 4 mΩ},
    terminal_limit: 105 °C, derating: [[25 °C, 100 %], [45 °C, 95 %]], status: reviewed}
  bench-cable-120: {kind: cable, area: 120 mm², stranding: class 5, insulation_temperature: 105 °C,
    voltage: 600 V, outside_diameter: 17.2 mm, status: reviewed}
  bench-cable-6: {kind: cable, area: 6 mm², stranding: class 5, insulation_temperature: 105 °C,
    voltage: 600 V, outside_diameter: 5.1 mm, status: reviewed}
"""


def make_system(circuits: int, loops: float = 0.0) -> str:
    """The text of a system with so many circuits beside the packs' two and the rings' second feeds.

    loops -- share of the sub-bars that have a second feed
    """
    bars = max(1, -(-circuits // ON_A_BAR))
    return "".join(
        (HEAD.format(circuits=circuits), *_busbars(bars), *_circuits(circuits, bars, loops),
         *_equipment(circuits), PARTS)
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
    for side in ("port", "starboard"):
        yield _circuit(f"{side} feed", f"{side} pack", "bar 0", 400, 120, 0.6)
    for number in range(1, circuits + 1):
        bar, place = divmod(number, ON_A_BAR)
        if place or bar >= bars:
            at = f"bar {min(bar, bars - 1)}"
            yield _circuit(f"branch {number}", at, f"pump {number}", 20, 6, 1 + number % 7)
            continue
        yield _circuit(f"feed {bar}", f"bar {(bar - 1) // 2}", f"bar {bar}", 400, 120, 2)
        if bar > 1 and int(bar * loops) > int((bar - 1) * loops):
            yield _circuit(f"ring {bar}", f"bar {bar - 1}", f"bar {bar}", 400, 120, 3)


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
            yield f"  pump {number}: {{current: 0.{1 + number % 9} A, critical: no, place: locker}}\n"


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
