"""How many jobs a second `recheck` does, whether memory stays flat, and what more workers give.

    nice python tests/benchmarks/recheck.py [--jobs 500] [--circuits 60] [--dask]
    nice python tests/benchmarks/recheck.py --jobs 10000      # the whole of it: an hour or two

Makes invented jobs in a folder of its own, each with its seal, and checks them by one process, by
two, and taken up again with all done. Prints jobs a second of the clock and of the processors, so
that a busy machine can be told from a slow program; the resident memory of the workers at a tenth
of the jobs and at the end; and how long tasks were.
"""

from __future__ import annotations

import argparse
import os
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from make_system import make_system

from coordination.checking import Request, judged, prepare
from coordination.checking.bench import Bench
from coordination.checking.local import Local
from coordination.fleet import State, look, recheck
from coordination.fleet import running as running_module
from coordination.fleet.engines import DaskEngine, Engine, LocalEngine
from coordination.fleet.setting import Order, Outcome, Setting, setting_for
from coordination.sealing import Signed, make_seal, text_of_seal
from coordination.sealing.hashes import of_bytes

TICKS = os.sysconf("SC_CLK_TCK")
PAGE = os.sysconf("SC_PAGE_SIZE")


def make_jobs(folder: Path, count: int, circuits: int) -> None:
    """So many files that differ in a comment, each with a seal."""
    text = make_system(circuits, 0.2)
    sealed = ""
    with Bench() as bench:
        for number in range(count):
            path = folder / f"{number // 1000:03}" / f"{number:06}.yaml"
            path.parent.mkdir(exist_ok=True)
            data = f"{text}# job {number}\n".encode()
            path.write_bytes(data)
            if not sealed:
                request = Request(str(path))
                findings = judged(request, *prepare(request, bench))
                signed = Signed("bench", "", "2026-11-25")
                sealed = text_of_seal(
                    make_seal(findings, request, bench, of_bytes(data), signed)
                )
            path.with_name(path.name + ".seal.json").write_text(sealed, "utf-8")


def children() -> list[int]:
    """Processes below this one."""
    own, parents = os.getpid(), {}
    for entry in os.listdir("/proc"):
        if entry.isdecimal():
            try:
                text = Path("/proc", entry, "stat").read_text()
            except OSError:
                continue
            parents[int(entry)] = int(text.rpartition(")")[2].split()[1])
    found, level = [], {own}
    while level:
        level = {child for child, parent in parents.items() if parent in level}
        found += level
    return found


def used(pids: list[int]) -> tuple[dict[int, float], float]:
    """Processor seconds of each of these processes, and the resident megabytes of the largest."""
    seconds, largest = {}, 0.0
    for pid in pids:
        try:
            fields = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
            pages = int(Path(f"/proc/{pid}/statm").read_text().split()[1])
        except OSError:
            continue
        seconds[pid] = (int(fields[11]) + int(fields[12])) / TICKS
        largest = max(largest, pages * PAGE / 1e6)
    return seconds, largest


class Row:
    """One run: how it went."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.tasks: list[float] = []
        self.wall = self.processor = self.early = self.late = 0.0

    def show(self, jobs: int) -> str:
        each = self.processor / jobs * 1e3
        tasks = f"{min(self.tasks):.2f} / {statistics.median(self.tasks):.2f} s"
        return (
            f"{self.name:<26}{jobs / self.wall:8.2f} /s{each:10.0f} ms"
            f"{self.early:9.0f} MB{self.late:8.0f} MB   {tasks}"
        )


def measure(
    name: str, paths: tuple[str, ...], setting: Setting, engine: Engine, state: State | None = None
) -> Row:
    """Check all of them once."""
    row = Row(name)
    count = [0]

    def keep(outcome: Outcome) -> None:
        if state is not None:
            state.keep(outcome)
        count[0] += 1
        if count[0] == max(1, len(paths) // 10):
            row.early = used(children())[1]
        if count[0] == len(paths):
            row.late = used(children())[1]

    def came(self: Any, found: list[Outcome]) -> None:
        row.tasks.append(sum(each.seconds for each in found))
        learn(self, found)

    learn = running_module._Run._learn
    running_module._Run._learn = came  # type: ignore[method-assign]
    before = used(children())[0]
    began = time.perf_counter()
    orders = (
        Order(n, path, key=done.key if state and (done := state.done(path)) else None)
        for n, path in enumerate(paths)
    )
    try:
        outcomes = list(recheck(orders, len(paths), setting, engine, keep))
    finally:
        running_module._Run._learn = learn  # type: ignore[method-assign]
    row.wall = time.perf_counter() - began
    row.processor = sum(each - before.get(pid, 0.0) for pid, each in used(children())[0].items())
    assert all(each.kept or each.line["outcome"] == "checked" for each in outcomes)
    # The last few are shared out among the workers, however short.
    row.tasks = row.tasks[: -2 * engine.workers] or row.tasks
    return row


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jobs", type=int, default=500)
    parser.add_argument("--circuits", type=int, default=60)
    parser.add_argument("--dask", action="store_true", help="a LocalCluster of two workers too")
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place, "jobs")
        folder.mkdir()
        make_jobs(folder, asked.jobs, asked.circuits)
        setting, paths = setting_for(None, (), Local()), look([str(folder)]).paths
        print(f"{asked.jobs} jobs of {asked.circuits} circuits; load {os.getloadavg()[0]:.1f}")
        head = f"{'':<26}{'clock':>11}{'processor':>13}{'at 1/10':>12}{'at end':>11}"
        print(f"{head}   shortest / median task")
        state = State(str(Path(place, "state")))
        engines: list[tuple[str, Callable[[], Engine], State | None]] = [
            ("one process", lambda: LocalEngine(1), None),
            ("two processes", lambda: LocalEngine(2), state),
            ("two, all done before", lambda: LocalEngine(2), state),
        ]
        if asked.dask:
            engines.append(("dask, two workers", lambda: DaskEngine(None, 2), None))
        for name, make, kept in engines:
            engine = make()
            print(measure(name, paths, setting, engine, kept).show(asked.jobs), flush=True)
            engine.close()
        state.close()


if __name__ == "__main__":
    main()
