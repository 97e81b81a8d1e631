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

from make_system import circuits_for, make_system

RUN = (sys.executable, "-c", "from coordination.cli import main; main()")
BASE = "python -c pass"
PASS = (sys.executable, "-c", "pass")
MEMORY_BUDGET = 60  # MB, of the 2,000-line check

SHORT = Path(__file__).parents[2] / "fixtures/systems/bench-60.yaml"


def elapsed(command: tuple[str, ...], environment: dict[str, str]) -> float:
    """Seconds of one run; output is thrown away, the status is the command's own affair."""
    start = time.perf_counter()
    quiet = subprocess.DEVNULL
    status = subprocess.run(command, env=environment, stdout=quiet, check=False).returncode
    if status not in (0, 1):  # 3: a pack is missing, and nothing was measured
        sys.exit(f"{' '.join(command[3:])} ended with {status}")
    return time.perf_counter() - start


def main() -> int:
    """Measure, print, and say whether every budget is kept."""
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--rounds", type=int, default=15)
    rounds = arguments.parse_args().rounds
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    with tempfile.TemporaryDirectory() as folder:
        long = Path(folder, "long.yaml")
        long.write_text(make_system(circuits_for(2000)), encoding="utf-8")
        commands = {
            BASE: (PASS, 1.0),
            "--help": ((*RUN, "--help"), 8.0),
            "check, 60 lines": ((*RUN, "check", str(SHORT)), 10.0),
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
    base = quartile[BASE]
    over = False
    for name, seconds in quartile.items():
        ratio, budget = seconds / base, budgets[name]
        over |= ratio > budget
        limit = f"   (at most {budget:g} ×)" if name != BASE else ""
        print(f"{name:<24}{seconds * 1e3:8.1f} ms {ratio:6.2f} ×{limit}")
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    print(f"{'peak memory':<24}{peak:8.1f} MB           (at most {MEMORY_BUDGET} MB)")
    return 1 if over or peak > MEMORY_BUDGET else 0


if __name__ == "__main__":
    sys.exit(main())
