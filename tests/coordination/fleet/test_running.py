"""Whatever becomes of a job or of its process, the rest is done, and it is called what it is."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
import time
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest

from coordination.errors import BadInput
from coordination.fleet import Setting
from coordination.fleet.engines import LocalEngine
from coordination.fleet.running import recheck
from coordination.fleet.setting import Order, Outcome


def told(outcomes: list[Outcome]) -> dict[str, str]:
    """Each job's name, and its verdict or what became of it."""
    return {
        os.path.basename(each.line["file"]).removesuffix(".yaml"): str(
            each.line.get("verdict") or each.line["outcome"]
        )
        for each in outcomes
    }


def test_planted_jobs_are_called_what_they_are(jobs: Any, run: Any, setting: Setting) -> None:
    for number in range(6):
        jobs.add(f"good {number}")
    jobs.failing("a failing one")
    jobs.broken("a broken one")
    for name in ("dies", "leaves", "hangs", "raises", "prints"):
        jobs.add(name)
    (jobs.folder / "other.yaml").write_text("services: {}\n", "utf-8")
    outcomes = run(setting._replace(limit=3.0))
    assert told(outcomes) == {
        **{f"good {number}": "pass" for number in range(6)},
        "a failing one": "fail",
        "a broken one": "unusable",
        "dies": "died",
        "leaves": "died",
        "hangs": "hung",
        "raises": "unproven",
        "prints": "pass",
        "other": "skipped",
    }
    assert [each.number for each in outcomes] == list(range(14))
    lines = {name: each.line for name, each in zip(told(outcomes), outcomes, strict=True)}
    assert lines["hangs"]["problems"] == ["it took longer than 3 s, twice"]
    assert lines["dies"]["problems"] == ["the process that checked it died, twice"]
    assert lines["dies"]["verdict"] is None
    assert "nominal_voltage" in lines["a broken one"]["problems"][0]
    assert "rule planted/planted" in lines["raises"]["problems"][0]


def test_a_rules_time_limit_holds_in_a_worker(jobs: Any, run: Any) -> None:
    """It needs POSIX timers in the worker's main thread: 5 s, far from the job's 20 s."""
    jobs.add("loops")
    began = time.monotonic()
    (outcome,) = run()
    assert time.monotonic() - began < 18
    assert outcome.line["verdict"] == "unproven"
    assert "took longer than 5 s" in outcome.line["problems"][0]
    assert outcome.key is None  # it may be quicker the next time


def test_a_worker_that_is_killed_costs_nothing(jobs: Any, run: Any) -> None:
    """Killed from outside, not by a job: every job has its verdict all the same."""
    for number in range(24):
        jobs.add(f"job {number:02}")
    others = set(multiprocessing.active_children())
    kept: list[Outcome] = []
    killed: list[int] = []

    def keep(outcome: Outcome) -> None:
        """Kill one of two, early and in the midst; one alone is tried after that and let be."""
        kept.append(outcome)
        ours = [each for each in multiprocessing.active_children() if each not in others]
        if len(ours) == 2 and len(kept) > 9 * len(killed) and len(killed) < 2:
            killed.append(ours[0].pid or 0)
            os.kill(killed[-1], signal.SIGKILL)

    outcomes = run(keep=keep)
    assert len(killed) == 2
    assert Counter(told(outcomes).values()) == {"pass": 24}
    assert [each.number for each in outcomes] == list(range(24))


def test_outcomes_come_as_one_process_gives_them(jobs: Any, run: Any, setting: Setting) -> None:
    for number in range(5):
        jobs.add(f"good {number}")
    jobs.failing("failing")
    jobs.broken("broken")
    two = run()
    engine = LocalEngine(1)
    try:
        orders = [Order(each.number, each.line["file"]) for each in two]
        one = list(recheck(orders, len(orders), setting, engine))
    finally:
        engine.close()
    assert [each.line for each in one] == [each.line for each in two]


class Threads:
    """An engine of two threads, for what does not hang on processes."""

    workers = 2

    def __init__(self) -> None:
        self.pool = ThreadPoolExecutor(2)

    def executor(self) -> ThreadPoolExecutor:
        return self.pool

    alone = executor

    def broken(self) -> bool:
        return False

    def close(self) -> None:
        self.pool.shutdown()


def test_what_is_done_is_kept_before_its_turn(
    setting: Setting, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The first job ends when all others are kept; they are told in their order all the same."""
    others_done = threading.Event()
    sizes: list[int] = []

    def check(_: Setting, orders: list[Order]) -> list[Outcome]:
        sizes.append(len(orders))
        if any(order.number == 0 for order in orders):
            assert others_done.wait(30)
        return [Outcome(each.number, {"file": each.path}, seconds=0.05) for each in orders]

    kept: list[int] = []

    def keep(outcome: Outcome) -> None:
        kept.append(outcome.number)
        if len(kept) == 99:
            others_done.set()

    monkeypatch.setattr("coordination.fleet.running.check", check)
    engine = Threads()
    orders = [Order(number, f"{number}.yaml") for number in range(100)]
    told = [each.number for each in recheck(orders, 100, setting, engine, keep)]
    engine.close()
    assert told == list(range(100))
    assert kept[-1] == 0
    # Of jobs of 0.05 s each a task holds six: 0.3 s, until the last few are shared out.
    assert max(sizes) == 6


def test_workers_of_another_program_are_refused(jobs: Any, run: Any, setting: Setting) -> None:
    jobs.add("good")
    with pytest.raises(BadInput) as refused:
        run(setting._replace(program="0" * 64))
    assert "another version of fusewright" in refused.value.problems[0].what


def test_no_worker_outlives_the_run(jobs: Any, setting: Setting) -> None:
    jobs.add("good")
    before = set(multiprocessing.active_children())
    engine = LocalEngine(2)
    list(recheck([Order(0, str(jobs.folder / "good.yaml"))], 1, setting, engine))
    engine.close()
    deadline = time.monotonic() + 10
    while set(multiprocessing.active_children()) - before and time.monotonic() < deadline:
        time.sleep(0.05)
    assert not set(multiprocessing.active_children()) - before


def test_nothing_to_do_is_done(setting: Setting) -> None:
    engine = LocalEngine(1)
    assert list(recheck([], 0, setting, engine)) == []
    engine.close()
