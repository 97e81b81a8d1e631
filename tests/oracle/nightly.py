"""Sets many generated systems beside ngspice and beside the brute-force judge.

    python -m tests.oracle.nightly [--systems 2000] [--judged 5000] [--first SEED] [--jobs 2]

Prints what was compared, the worst deviation of each kind, and every disagreement by kind. Exit
status 1 where a number is off or a wrong pass was found.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor

from tests.oracle import compare, rise
from tests.oracle.engine import NUMBERS_ONLY, check
from tests.oracle.generate import make, text_of
from tests.oracle.plant import read
from tests.oracle.spice import there

#: Every so many systems, three rises are measured: a transient costs more than all else.
RISE_EVERY = 5


def main(arguments: Iterable[str] | None = None) -> int:
    """Run what was asked for."""
    asked = _parser().parse_args(None if arguments is None else list(arguments))
    status = 0
    with ProcessPoolExecutor(asked.jobs) as pool:
        if asked.systems and there():
            status |= _numbers(pool, range(asked.first, asked.first + asked.systems))
        elif asked.systems:
            print("skipped: ngspice missing")
        if asked.judged:
            status |= _verdicts(pool, range(asked.first, asked.first + asked.judged))
    return status


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m tests.oracle.nightly")
    parser.add_argument("--systems", type=int, default=2000, help="systems for ngspice")
    parser.add_argument("--judged", type=int, default=0, help="systems for the judge")
    parser.add_argument("--first", type=int, default=0, help="first seed")
    parser.add_argument("--jobs", type=int, default=2, help="processes")
    return parser


def solve(seed: int) -> tuple[compare.Tally, rise.Rises]:
    """One system by both."""
    text = text_of(make(seed))
    plant, answer = read(text), check(text, NUMBERS_ONLY)
    tally, rises = compare.compare(plant, answer, seed), rise.Rises()
    if seed % RISE_EVERY == 0:
        rises = rise.compare(plant, answer["conditions"]["normal"]["points"], seed)
    return tally, rises


def _numbers(pool: ProcessPoolExecutor, seeds: range) -> int:
    began, total, rises = time.monotonic(), compare.Tally(), rise.Rises()
    for tally, rising in pool.map(solve, seeds, chunksize=10):
        total.merge(tally)
        rises.merge(rising)
    print(f"ngspice: {total.systems} systems in {time.monotonic() - began:.0f} s")
    for kind, number in sorted(total.compared.items()):
        print(f"  {kind:16} {number:8} compared, worst {total.worst.get(kind, 0.0):.1e}, "
              f"not given {total.unknown.get(kind, 0)}")  # fmt: skip
    print(f"  duties in pieces without battery, upper bounds: {total.bounds}")
    for kind, found in (("first moments", rises.moments), ("63 % times", rises.loops)):
        worst = max((abs(share) for _, share in found), default=0.0)
        print(f"  {kind:16} {len(found):8} compared, worst {worst:.2%}")
    off = [*total.off, *rises.off()]
    for line in off[:50]:
        print("  OFF", line)
    print(f"  off: {len(off)}")
    return 1 if off else 0


def _verdicts(pool: ProcessPoolExecutor, seeds: range) -> int:
    from tests.oracle.verdicts import Disagreements, judge

    began, total = time.monotonic(), Disagreements()
    for found in pool.map(judge, seeds, chunksize=10):
        total.merge(found)
    print(f"judge: {total.systems} systems in {time.monotonic() - began:.0f} s")
    print("\n".join(total.lines()))
    return 1 if total.wrong_passes else 0


if __name__ == "__main__":
    sys.exit(main())
