"""How long the commands take, as ratios to `python -c pass` of the same interpreter in one run.

    python tests/benchmarks/startup.py [--rounds N]

Prints a table and ends with 1 if a budget is missed. Each round runs every command once, in turn,
so that a busy machine slows all alike; the ratio is that of the lower quartiles.
"""

from __future__ import annotations

import argparse
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

RUN = (sys.executable, "-c", "from coordination.cli import main; main()")
PASS = (sys.executable, "-c", "pass")
MEMORY_BUDGET = 60  # MB, of the 2,000-line check

HEAD = """\
system: benchmark
nominal_voltage: 24 V
places:
  locker: {ambient: 35 °C}
sources:
  pack: {part: pack-230, place: locker}
busbars:
  main bus: {part: bar, place: locker}
parts:
  pack-230: {kind: battery, emf: {min: 25.6 V, max: 27.2 V}, charge_voltage: 28.8 V,
    nominal_voltage: 25.6 V, capacity: 230 Ah, resistance: {min: 2.7 mΩ, max: 5.1 mΩ},
    discharge: {continuous: 900 A}, status: reviewed}
  bar: {kind: busbar, rated_current: 1000 A, voltage: 60 V, status: reviewed}
  main-fuse: {kind: fuse, family: class-t, rated_current: 400 A, rated_voltage: 125 V,
    interrupt_ratings: [{voltage: 125 V, current: 20 kA}], resistance: {min: 0.1 mΩ, max: 0.2 mΩ},
    terminal_limit: 90 °C, status: reviewed}
  branch-fuse: {kind: fuse, family: class-t, rated_current: 20 A, rated_voltage: 125 V,
    interrupt_ratings: [{voltage: 125 V, current: 20 kA}], resistance: {min: 2 mΩ, max: 4 mΩ},
    terminal_limit: 90 °C, status: reviewed}
  thick: {kind: cable, area: 120 mm², insulation_temperature: 105 °C, voltage: 600 V,
    status: reviewed}
  thin: {kind: cable, area: 6 mm², insulation_temperature: 105 °C, voltage: 600 V, status: reviewed}
circuits:
  main feed:
    from: pack
    to: main bus
    parts: [{fuse: main-fuse, distance: 120 mm}, {cable: thick, length: 0.6 m}]
"""
BRANCH = """\
  branch {number}:
    from: main bus
    to: pump {number}
    parts:
      - fuse: branch-fuse
      - cable: thin
        length: {length} m
"""


def system_of(lines: int) -> str:
    """A bank, a busbar and as many branches as make about that many lines."""
    room = lines - HEAD.count("\n") - 1
    count = max(1, room // (BRANCH.count("\n") + 1))
    branches = "".join(BRANCH.format(number=n, length=1 + n % 5) for n in range(count))
    pumps = "".join(f"  pump {n}: {{current: 5 A}}\n" for n in range(count))
    return f"{HEAD}{branches}equipment:\n{pumps}"


def elapsed(command: tuple[str, ...], environment: dict[str, str]) -> float:
    """Seconds of one run; output is thrown away, the status is the command's own affair."""
    start = time.perf_counter()
    quiet = subprocess.DEVNULL
    status = subprocess.run(command, env=environment, stdout=quiet, check=False).returncode
    if status not in (0, 1, 3):
        sys.exit(f"{' '.join(command[3:])} ended with {status}")
    return time.perf_counter() - start


def main() -> int:
    """Measure, print, and say whether every budget is kept."""
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--rounds", type=int, default=15)
    rounds = arguments.parse_args().rounds
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    with tempfile.TemporaryDirectory() as folder:
        short, long = Path(folder, "short.yaml"), Path(folder, "long.yaml")
        short.write_text(system_of(60), encoding="utf-8")
        long.write_text(system_of(2000), encoding="utf-8")
        commands = {
            "python -c pass": (PASS, 1.0),
            "--help": ((*RUN, "--help"), 8.0),
            "check, 60 lines": ((*RUN, "check", str(short)), 10.0),
            "check, 60 lines, json": ((*RUN, "check", str(short), "--format", "json"), 10.0),
            "check, 2,000 lines": ((*RUN, "check", str(long)), 16.0),
        }
        times: dict[str, list[float]] = {name: [] for name in commands}
        for _ in range(rounds + 1):
            for name, (command, _) in commands.items():
                times[name].append(elapsed(command, environment))
    return report(times, {name: budget for name, (_, budget) in commands.items()})


def report(times: dict[str, list[float]], budgets: dict[str, float]) -> int:
    """Print the ratios and the peak memory of all children; 1 if one is over its budget."""
    quartile = {name: sorted(each[1:])[len(each) // 4] for name, each in times.items()}
    base = quartile["python -c pass"]
    over = False
    for name, seconds in quartile.items():
        ratio = seconds / base
        over |= ratio > budgets[name]
        print(f"{name:<24}{seconds * 1e3:8.1f} ms {ratio:6.2f} ×   (at most {budgets[name]:g} ×)")
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    print(f"{'peak memory':<24}{peak:8.1f} MB           (at most {MEMORY_BUDGET} MB)")
    return 1 if over or peak > MEMORY_BUDGET else 0


if __name__ == "__main__":
    sys.exit(main())
