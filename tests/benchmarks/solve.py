"""How long a network takes to solve, in ms and as ratios to `python -c pass` in the same run.

    python tests/benchmarks/solve.py [--rounds N]

Prints a table and ends with 1 if a budget is missed. "Solve" is everything from the list of
branches to the fault current and the resistance at every point and every branch's current. Loops
between any two points of a long network are shown without a budget: nothing of the kind is built,
and what is left of such a network after elimination is nearly full.
"""

from __future__ import annotations

import argparse
import resource
import subprocess
import sys
import time
from collections.abc import Callable
from random import Random

from coordination.study.solve import Faults, Solved
from coordination.study.topology import survey

POINTS = 10_000
SOURCES = ((0, 300.0), (POINTS // 2, 200.0), (POINTS - 1, 100.0))

Branches = tuple[list[int], list[int], list[float]]


def radial(chance: Random, reach: int) -> Branches:
    """A tree: each point hangs on one of the `reach` points before it."""
    start = [chance.randrange(max(0, point - reach), point) for point in range(1, POINTS)]
    return start, list(range(1, POINTS)), [chance.uniform(0, 1e-2) for _ in start]


def looped(chance: Random, reach: int, loop: int) -> Branches:
    """A tree with 5 % more branches, each between points at most `loop` numbers apart."""
    start, end, ohms = radial(chance, reach)
    while len(start) < POINTS * 1.05:
        one = chance.randrange(POINTS)
        other = one + chance.randrange(-loop, loop + 1)
        if one != other and 0 <= other < POINTS:
            start.append(one)
            end.append(other)
            ohms.append(chance.uniform(0, 1e-2))
    return start, end, ohms


def doubled(chance: Random, reach: int) -> Branches:
    """A tree of which 5 % of the branches lie twice, side by side."""
    start, end, ohms = radial(chance, reach)
    for branch in chance.sample(range(len(start)), POINTS // 20):
        start.append(start[branch])
        end.append(end[branch])
        ohms.append(ohms[branch])
    return start, end, ohms


def solve(branches: Branches) -> float:
    """Solve one network; gives a number that depends on all of it."""
    start, end, ohms = branches
    shape = survey(POINTS, start, end, [point for point, _ in SOURCES])
    solved = Solved(shape, ohms, SOURCES)
    fed = [(point, 26.0 * conductance) for point, conductance in SOURCES]
    faults = Faults(solved, fed)
    current = solved.gather([*fed, (POINTS // 3, -50.0)])
    flows = solved.flows(current, solved.voltages(current))
    return sum(faults.short) + sum(flows)


def quickest(work: Callable[[], object], rounds: int) -> float:
    """Least processor time [ms] of several runs, children's included: other work only ever adds."""
    spent = []
    for _ in range(rounds):
        begun = processor()
        work()
        spent.append(processor() - begun)
    return 1000 * min(spent)


def processor() -> float:
    """Processor time [s] of this process and of its children so far."""
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.process_time() + children.ru_utime + children.ru_stime


def main() -> int:
    """Measure, print, and say whether every budget is kept."""
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--rounds", type=int, default=7)
    rounds = arguments.parse_args().rounds
    chance = Random(1)
    cases: dict[str, tuple[Branches, float | None]] = {
        "radial, bushy": (radial(chance, POINTS), 30.0),
        "radial, long": (radial(chance, 20), 30.0),
        "radial, one chain": (radial(chance, 1), 30.0),
        "5 % of cables doubled": (doubled(chance, POINTS), 150.0),
        "5 % loops to near points": (looped(chance, 20, 20), 150.0),
        "5 % loops to any point, bushy": (looped(chance, POINTS, POINTS), 150.0),
        "5 % loops to any point, long": (looped(chance, 20, POINTS), None),
    }
    bare = quickest(lambda: subprocess.run((sys.executable, "-c", "pass"), check=True), rounds)
    print(f"python -c pass: {bare:.1f} ms; {POINTS} points, best of {rounds}")
    missed = 0
    for name, (branches, budget) in cases.items():
        taken = quickest(lambda branches=branches: solve(branches), rounds)  # type: ignore[misc]
        over = budget is not None and taken > budget
        missed += over
        limit = "no budget" if budget is None else f"budget {budget:.0f} ms"
        print(
            f"{name:32} {taken:8.1f} ms {taken / bare:7.1f} x   {limit}{'  OVER' if over else ''}"
        )
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
