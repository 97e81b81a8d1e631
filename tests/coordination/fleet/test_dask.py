"""Dask: the same lines in the same order, and the limits of rules hold in its threads."""

from __future__ import annotations

import logging
import os
import signal
import threading
from collections.abc import Iterator
from typing import Any

import pytest

from coordination.errors import BadInput
from coordination.fleet import Setting, look, recheck
from coordination.fleet.aside import check_aside
from coordination.fleet.engines import DaskEngine
from coordination.fleet.setting import Order, Outcome

distributed = pytest.importorskip("distributed")
pytestmark = pytest.mark.filterwarnings("default")


@pytest.fixture(scope="module")
def engine() -> Iterator[DaskEngine]:
    logging.getLogger("distributed").setLevel(logging.CRITICAL)
    engine = DaskEngine(None, 2)
    yield engine
    engine.close()


def test_the_same_lines_in_the_same_order(
    jobs: Any, run: Any, setting: Setting, engine: DaskEngine
) -> None:
    for number in range(4):
        jobs.add(f"good {number}")
    jobs.failing("failing")
    jobs.broken("broken")
    for name in ("dies", "hangs", "loops", "raises", "prints"):
        jobs.add(name)
    setting = setting._replace(limit=8.0)
    local = run(setting)
    found = look([str(jobs.folder)]).paths
    orders = [Order(number, path) for number, path in enumerate(found)]
    dask = list(recheck(orders, len(orders), setting, engine))
    assert [each.line for each in dask] == [each.line for each in local]
    assert [each.key for each in dask] == [each.key for each in local]
    names = {os.path.basename(each.line["file"]): each.line for each in dask}
    assert names["loops.yaml"]["verdict"] == "unproven"
    assert "took longer than 5 s" in names["loops.yaml"]["problems"][0]
    assert names["hangs.yaml"]["outcome"] == "hung"
    assert names["dies.yaml"]["outcome"] == "died"


def test_a_thread_has_a_process_of_its_own_that_is_begun_again(
    jobs: Any, setting: Setting
) -> None:
    """Killed from outside between two jobs: the next is done by another."""
    path = str(jobs.add("good"))
    found: list[Outcome] = []

    def work() -> None:
        from coordination.fleet import aside

        found.extend(check_aside(setting, [Order(0, path)]))
        process = aside._process()
        os.kill(process.pid, signal.SIGKILL)
        found.extend(check_aside(setting, [Order(1, path)]))
        aside._end(aside._process())

    thread = threading.Thread(target=work)
    thread.start()
    thread.join(60)
    assert [each.line["verdict"] for each in found] == ["pass", "pass"]


def test_no_scheduler_is_told() -> None:
    with pytest.raises(BadInput) as refused:
        DaskEngine("nonsense://x", 1)
    assert "no dask scheduler" in refused.value.problems[0].what
