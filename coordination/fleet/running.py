"""Hands jobs out in tasks, takes what comes back in order, and goes on whatever becomes of workers.

Where a process dies, every job that was with a worker is done again alone, so that the one at
which it dies is named; the rest is not held up.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, BrokenExecutor, CancelledError, Future, wait
from itertools import islice
from math import ceil
from typing import Final

from coordination.errors import BadInput, Problem
from coordination.fleet.engines import Engine
from coordination.fleet.lost import lost
from coordination.fleet.setting import Order, Outcome, Setting, Unfit
from coordination.fleet.worker import check

#: What a task should take [s]: well over the 0.1 s below which handing out costs too much.
TASK: Final = 0.3
#: Most jobs of a task.
MOST: Final = 256
#: Tasks that wait for each worker beside the one it does.
WAITING: Final = 1

Task = Future[list[Outcome]]


def recheck(
    orders: Iterable[Order],
    total: int,
    setting: Setting,
    engine: Engine,
    keep: Callable[[Outcome], None] = lambda _: None,
) -> Iterator[Outcome]:
    """What became of every order, in their order; they are numbered from 0.

    keep -- told of each outcome as soon as it is there, before its turn
    Raises BadInput: no worker can begin, or one has another program. The engine is not closed.
    """
    _ready(setting, engine)
    yield from _Run(orders, total, setting, engine, keep).outcomes()


def _ready(setting: Setting, engine: Engine) -> None:
    """Asks for nothing, to see that workers begin. Raises BadInput."""
    try:
        engine.executor().submit(check, setting, []).result()
    except Unfit as error:
        raise _unfit(error) from error
    except Exception as error:
        what = f"no worker can begin: {type(error).__name__}: {error}"
        raise BadInput((Problem("recheck", 0, 0, what),)) from error


class _Run:
    """What is still to be handed out, what is out, and what came back too early to be told."""

    def __init__(
        self,
        orders: Iterable[Order],
        total: int,
        setting: Setting,
        engine: Engine,
        keep: Callable[[Outcome], None],
    ) -> None:
        self._orders, self._total = iter(orders), total
        self._setting, self._engine, self._keep = setting, engine, keep
        self._given = 0  # orders handed out
        self._next = 0  # number of the next to be told
        self._out: dict[Task, list[Order]] = {}
        self._early: dict[int, Outcome] = {}
        self._each = 0.0  # seconds that a job takes; 0: not known yet

    def outcomes(self) -> Iterator[Outcome]:
        while self._given < self._total or self._out:
            suspects = self._hand_out()
            if not suspects:
                done, _ = wait(self._out, return_when=FIRST_COMPLETED)
                suspects = self._take(done)
            yield from self._told()
            for order in suspects:
                self._came([self._alone(order)])
                yield from self._told()

    def _told(self) -> Iterator[Outcome]:
        while self._next in self._early:
            yield self._early.pop(self._next)
            self._next += 1

    def _hand_out(self) -> list[Order]:
        """Submit what may be; gives what was out if that breaks."""
        most = self._engine.workers * (1 + WAITING)
        while self._given < self._total and len(self._out) < most and self._near(most):
            orders = list(islice(self._orders, self._size(most)))
            self._given += len(orders)
            try:
                task = self._engine.executor().submit(check, self._setting, orders)
            except BrokenExecutor:  # since the last look
                return sorted([*self._all_out(), *orders])
            self._out[task] = orders
        return []

    def _near(self, most: int) -> bool:
        """Whether what is told next is not too far behind: what is early is kept in memory."""
        return len(self._early) < most * MOST

    def _size(self, most: int) -> int:
        """How many jobs make a task: what takes long enough, but leaves some for all workers."""
        left = self._total - self._given
        enough = ceil(TASK / self._each) if self._each else 1
        return min(MOST, max(1, min(enough, ceil(left / most))))

    def _take(self, done: Iterable[Task]) -> list[Order]:
        """Keep what came back; gives the orders that did not."""
        broken = False
        for task in done:
            try:
                found = task.result()
            except Unfit as error:
                raise _unfit(error) from error
            except (Exception, CancelledError):
                broken = True
                continue
            del self._out[task]
            self._came(found)
            self._learn(found)
        return self._all_out() if broken else []

    def _all_out(self) -> list[Order]:
        """Everything that is out and did not come back; none of it is waited for any more."""
        for task in [each for each in self._out if each.done() and not _failed(each)]:
            self._came(task.result())
            del self._out[task]
        suspects = sorted(order for orders in self._out.values() for order in orders)
        for task in self._out:
            task.cancel()
        self._out.clear()
        self._engine.broken()
        return suspects

    def _came(self, found: Iterable[Outcome]) -> None:
        for outcome in found:
            self._early[outcome.number] = outcome
            self._keep(outcome)

    def _learn(self, found: list[Outcome]) -> None:
        """How long a job takes, by the last tasks."""
        if found:
            mean = max(1e-4, sum(outcome.seconds for outcome in found) / len(found))
            self._each += (mean - self._each) / (4 if self._each else 1)

    def _alone(self, order: Order) -> Outcome:
        """What became of a job with nothing beside it."""
        began = time.monotonic()
        try:
            (outcome,) = self._engine.alone().submit(check, self._setting, [order]).result()
        except Unfit as error:
            raise _unfit(error) from error
        except Exception:
            too_long = time.monotonic() - began >= self._setting.limit
            hung = self._engine.broken() and too_long
            return lost(order, hung, self._setting.limit)
        return outcome


def _failed(task: Task) -> bool:
    return task.cancelled() or task.exception() is not None


def _unfit(error: Unfit) -> BadInput:
    return BadInput((Problem("recheck", 0, 0, str(error)),))
