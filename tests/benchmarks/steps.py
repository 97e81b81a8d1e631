"""How much processor time single steps of a check take, against their budgets.

    python tests/benchmarks/steps.py [--rounds N]

Prints a table, in ms and as ratios to `python -c pass` of the same run, and ends with 1 if a budget
is missed. The least of several rounds counts: other work on the machine only ever adds.
"""

from __future__ import annotations

import argparse
import gc
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from make_system import make_system
from solve import processor, quickest

from catalogue.store import open_catalogue
from coordination.checking import Request, prepare, studies_of
from coordination.study import Study

#: Parts that are looked up.
PARTS = 20
#: Circuits of the system whose pairs are compared.
CIRCUITS = 300


def look_up(ids: list[str]) -> None:
    """Open the catalogue and read some parts."""
    with open_catalogue(None) as catalogue:
        assert all(catalogue.get(part_id) for part_id in ids)


def studied(path: str) -> Study:
    """A system's normal condition, its currents worked out."""
    request = Request(file=path)
    study = studies_of(request, *prepare(request))["normal"]
    study.fault_max("bar 0")
    study.load(study.subjects("device")[0])
    return study


def compare_all(study: Study) -> None:
    """Find and compare every two devices in series."""
    compared = [study.compared(pair) for pair in study.pairs()]
    assert len(compared) > 1000
    assert all(each.result is not None for each in compared)


def all_events(study: Study) -> None:
    """What every single event leaves."""
    assert len(study.outages) > CIRCUITS
    assert sum(len(outcome.dark) for outcome in study.outages) >= CIRCUITS


def once_each(
    make: Callable[[], Study], rounds: int, step: Callable[[Study], None] = compare_all
) -> float:
    """Least processor time [ms] of a step on a study made anew for every round."""
    spent = []
    for _ in range(rounds):
        study = make()
        gc.collect()
        begun = processor()
        step(study)
        spent.append(processor() - begun)
    return 1000 * min(spent)


def main() -> int:
    """Measure, print, and say whether every budget is kept."""
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--rounds", type=int, default=7)
    rounds = arguments.parse_args().rounds
    with open_catalogue(None) as catalogue:
        ids = list(catalogue.ids())[::40][:PARTS]
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "large.yaml")
        path.write_text(make_system(CIRCUITS), encoding="utf-8")
        pairs = once_each(lambda: studied(str(path)), rounds)
        events = once_each(lambda: studied(str(path)), rounds, all_events)
    taken = {
        f"catalogue and {PARTS} parts": (quickest(lambda: look_up(ids), rounds), 10.0),
        f"pairs of {CIRCUITS} circuits": (pairs, 500.0),
        f"single events of {CIRCUITS} circuits": (events, 50.0),
    }
    bare = quickest(lambda: subprocess.run((sys.executable, "-c", "pass"), check=True), rounds)
    print(f"python -c pass: {bare:.1f} ms; best of {rounds}")
    for name, (spent, budget) in taken.items():
        over = "  OVER" if spent > budget else ""
        print(f"{name:32} {spent:8.1f} ms {spent / bare:7.1f} x   budget {budget:.0f} ms{over}")
    return 1 if any(spent > budget for spent, budget in taken.values()) else 0


if __name__ == "__main__":
    sys.exit(main())
