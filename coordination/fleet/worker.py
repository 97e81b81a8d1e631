"""Checks jobs one after another in a worker process, with catalogue and packs kept open.

A job that takes too long ends the process, whatever it hangs in: whoever waits for it sees that. A
rule's own time limit needs the main thread, and its printing the process to itself; where a job
comes in another thread (a worker of dask), a process of its own checks it (`aside`).
"""

from __future__ import annotations

import contextlib
import faulthandler
import gc
import os
import signal
import threading
import time
from collections.abc import Iterator, Sequence
from datetime import date

from catalogue.errors import CatalogueError
from coordination.checking.bench import Bench
from coordination.fleet.job import do, unusable
from coordination.fleet.setting import Order, Outcome, Setting, Unfit

#: Findings after which garbage is collected: a study is a few megabytes of cycles.
FINDINGS_BETWEEN = 4000
#: How a process ends whose job took too long.
TOO_LONG = 1


def start() -> None:
    """Ready a process of a pool: it ends with its parent, and an interrupt is the parent's.

    What a pack writes past Python's streams must not stand among the lines.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    os.dup2(nowhere, 2)
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    from multiprocessing import parent_process

    parent = parent_process()
    if parent is not None:
        parent.join()
        os._exit(0)


def check(setting: Setting, orders: Sequence[Order]) -> list[Outcome]:
    """What became of each order. Raises Unfit: this program is another."""
    if threading.current_thread() is not threading.main_thread():
        from coordination.fleet.aside import check_aside

        return check_aside(setting, orders)
    return list(outcomes(setting, orders))


def outcomes(setting: Setting, orders: Sequence[Order]) -> Iterator[Outcome]:
    """The same, one by one. Raises Unfit; with nothing to do CatalogueError."""
    try:
        place = _place(setting)
    except CatalogueError as error:
        if not orders:
            raise
        yield from (Outcome(each.number, unusable(each.path, error)) for each in orders)
        return
    for order in orders:
        began = time.monotonic()
        with _at_most(setting.limit):
            outcome = do(order, setting, place.bench)
        yield outcome._replace(seconds=time.monotonic() - began)
        place.tidy(outcome)


class _Place:
    """Where a process works: its bench, and the garbage since it was cleared."""

    def __init__(self, setting: Setting) -> None:
        from coordination.sealing.hashes import of_program

        # Paths count from where the user stands, on whatever machine that is.
        os.chdir(setting.folder)
        if of_program() != setting.program:
            raise Unfit("a worker has another version of fusewright than this one")
        self.setting = setting
        today = date.fromisoformat(setting.today)
        self.bench = Bench(setting.catalogue, setting.local, today)
        self._findings = 0
        self._first = True

    def tidy(self, outcome: Outcome) -> None:
        """Let go of what a job left behind; memory stays flat, and little time goes there."""
        from coordination.rules.kit.kept import forget

        forget()
        self._findings += sum((outcome.line.get("counts") or {}).values())
        if self._findings < FINDINGS_BETWEEN and not self._first:
            return
        gc.collect()
        if self._first:
            # What is loaded by now stays: later collections need not look at it.
            gc.freeze()
            gc.disable()
        self._findings, self._first = 0, False


_places: list[_Place] = []


def _place(setting: Setting) -> _Place:
    """This process's place; another run's bench is cleared away."""
    like = setting._replace(changed_part="", limit=0.0)
    if not _places or _places[0].setting != like:
        while _places:
            _places.pop().bench.catalogue.close()
        made = _Place(setting)
        made.setting = like
        _places.append(made)
    return _places[0]


@contextlib.contextmanager
def _at_most(limit: float) -> Iterator[None]:
    """Ends the process after `limit` [s], even from within one call into C."""
    with open(os.devnull, "w", encoding="ascii") as nowhere:
        faulthandler.dump_traceback_later(limit, exit=True, file=nowhere)
        try:
            yield
        finally:
            faulthandler.cancel_dump_traceback_later()
