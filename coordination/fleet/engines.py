"""Where jobs are run: a pool of processes on this machine, or the workers of a dask scheduler.

Both give executors of `concurrent.futures`; who hands out the jobs knows no difference.
"""

from __future__ import annotations

import logging
import multiprocessing
import multiprocessing.process
import signal
import time
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future, ProcessPoolExecutor
from contextlib import contextmanager
from importlib import import_module
from typing import Any, Protocol

from coordination.errors import BadInput, Problem
from coordination.fleet.worker import TOO_LONG, start

#: Seconds to wait for a scheduler, and for its first worker.
PATIENCE = 30.0
#: Seconds in which all processes of a broken pool have ended, as a rule.
_ENDING = 5.0


class Engine(Protocol):
    """Runs tasks; `workers` is how many at once."""

    workers: int

    def executor(self) -> Executor:
        """Where tasks are submitted; a new one if the last is broken."""
        ...

    def alone(self) -> Executor:
        """Where a task is that may break it: nothing else is there."""
        ...

    def broken(self) -> bool:
        """Take another executor; gives whether a worker ended because a job took too long."""
        ...

    def close(self) -> None:
        """End all workers at once, whatever they do."""
        ...


class LocalEngine:
    """Processes of this machine."""

    def __init__(self, workers: int) -> None:
        self.workers = workers
        self._made: ProcessPoolExecutor | None = None
        self._size = 0
        # Children that were there before are somebody else's.
        self._others = set(multiprocessing.active_children())
        self._ours: set[multiprocessing.process.BaseProcess] = set()

    def executor(self) -> Executor:
        """A pool of all workers."""
        return self._pool(self.workers)

    def alone(self) -> Executor:
        """A pool of one."""
        return self._pool(1)

    def _pool(self, size: int) -> Executor:
        if self._made is None or self._size != size:
            self._drop()
            # A fresh interpreter: a copy of this one would share its locks and open files.
            context = multiprocessing.get_context("spawn")
            self._made, self._size = ProcessPoolExecutor(size, context, start), size
        return _Local(self.submit)

    def broken(self) -> bool:
        """Take another pool; gives whether a process ended because a job took too long."""
        # The pool's own thread waits for them too; how one ended may be known a little later.
        deadline = time.monotonic() + _ENDING
        while any(each.exitcode is None for each in self._ours) and time.monotonic() < deadline:
            time.sleep(0.01)
        hung = any(child.exitcode == TOO_LONG for child in self._ours)
        self._drop()
        return hung

    def _drop(self) -> None:
        if self._made is not None:
            self._made.shutdown(wait=False, cancel_futures=True)
            self._made = None
        for child in self._ours:
            child.kill()
        self._ours.clear()

    def submit(self, fn: Callable[..., Any], /, *args: Any) -> Future[Any]:
        """Submit to the pool. Its processes are begun with interrupts held back: these are ours."""
        assert self._made is not None
        with _held_back():
            task = self._made.submit(fn, *args)
        self._ours |= set(multiprocessing.active_children()) - self._others
        return task

    def close(self) -> None:
        """Kill the workers: none of them holds anything that must be put away."""
        self._drop()


class _Local(Executor):
    """The executor of an engine's pool."""

    def __init__(self, submit: Callable[..., Future[Any]]) -> None:
        self._submit = submit

    def submit(self, fn: Callable[..., Any], /, *args: Any, **_: Any) -> Future[Any]:
        return self._submit(fn, *args)


@contextmanager
def _held_back() -> Iterator[None]:
    try:
        before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    except AttributeError:
        yield
        return
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


class DaskEngine:
    """The workers of a dask scheduler, or of a cluster of this machine's processes."""

    def __init__(self, scheduler: str | None, workers: int) -> None:
        """Raises BadInput: dask is not installed, no scheduler answers, it has no worker."""
        try:
            distributed: Any = import_module("distributed")
        except ImportError as error:
            what = "dask is not installed"
            raise _bad("--engine", what, "pip install 'fusewright[fleet]'") from error
        self._cluster: Any = None
        try:
            if scheduler is None:
                self._cluster = distributed.LocalCluster(
                    n_workers=workers,
                    threads_per_worker=1,
                    processes=True,
                    dashboard_address=None,
                    silence_logs=logging.ERROR,
                )
            self._client: Any = distributed.Client(self._cluster or scheduler, timeout=PATIENCE)
            self._client.wait_for_workers(1, timeout=PATIENCE)
        except (OSError, ValueError, TimeoutError) as error:
            what = f"no dask scheduler with workers answers there: {error}"
            raise _bad("--scheduler", what, "tcp://HOST:PORT") from error
        threads = self._client.nthreads().values()
        self.workers = max(1, sum(threads))
        self._executor = self._client.get_executor(pure=False)

    def executor(self) -> Executor:
        """The client's executor."""
        found: Executor = self._executor
        return found

    def alone(self) -> Executor:
        """The same: each thread of a worker has a process of its own for its jobs."""
        return self.executor()

    def broken(self) -> bool:
        """The scheduler begins anew what died; what takes too long ends beside the worker."""
        return False

    def close(self) -> None:
        """Leave the scheduler, and end the cluster if it was made here."""
        self._executor.shutdown(wait=False)
        self._client.close(timeout=5)
        if self._cluster is not None:
            self._cluster.close(timeout=5)


def _bad(where: str, what: str, allowed: str) -> BadInput:
    return BadInput((Problem(where, 0, 0, what, allowed),))
