"""A process beside a worker's thread, which checks its jobs in a main thread of its own.

It reads orders from standard input and answers one by one, so that the job at which it died is
known. Both ends are of one program: they speak pickle.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import struct
import subprocess
import sys
import threading
import time
from collections.abc import Iterator, Sequence
from typing import IO, Any, Final

from coordination.fleet.lost import lost
from coordination.fleet.setting import Order, Outcome, Setting, Unfit
from coordination.fleet.worker import TOO_LONG

_SIZE: Final = struct.Struct("<Q")
_own = threading.local()


def check_aside(setting: Setting, orders: Sequence[Order]) -> list[Outcome]:
    """What became of each order, by this thread's own process. Raises Unfit.

    A job at which the process dies is tried once more, alone, as the local engine does.
    """
    found: list[Outcome] = []
    died = -1
    while len(found) < len(orders):
        began = time.monotonic()
        process = _process()
        try:
            for outcome in _asked(process, setting, orders[len(found) :]):
                found.append(outcome)
                began = time.monotonic()
        except (OSError, EOFError, pickle.UnpicklingError):
            too_long = time.monotonic() - began >= setting.limit
            hung = _end(process) == TOO_LONG and too_long
            if died == len(found):
                found.append(lost(orders[died], hung, setting.limit))
            else:
                died = len(found)
    return found


def _process() -> subprocess.Popen[bytes]:
    running: subprocess.Popen[bytes] | None = getattr(_own, "process", None)
    if running is None or running.poll() is not None:
        # Standard streams are the engine's to swap; it is told all by the pipes.
        running = subprocess.Popen(
            [sys.executable, "-c", "from coordination.fleet.aside import serve; serve()"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            env=os.environ | {"PYTHONPATH": os.pathsep.join(filter(None, sys.path))},
        )
        _own.process = running
    return running


def _end(process: subprocess.Popen[bytes]) -> int:
    """End it, if it has not ended; how it did."""
    try:
        status = process.wait(1.0)
    except subprocess.TimeoutExpired:
        process.kill()
        status = process.wait()
    for stream in (process.stdin, process.stdout):
        if stream is not None:
            with contextlib.suppress(OSError):
                stream.close()
    return status


def _asked(
    process: subprocess.Popen[bytes], setting: Setting, orders: Sequence[Order]
) -> Iterator[Outcome]:
    assert process.stdin is not None
    assert process.stdout is not None
    _send(process.stdin, (setting, list(orders)))
    for _ in orders:
        answer = _receive(process.stdout)
        if isinstance(answer, Exception):
            raise answer
        yield answer


def serve() -> None:
    """Check what is asked until nobody asks any more."""
    import signal

    from coordination.fleet.worker import outcomes

    # An interrupt is for whoever asks.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    asking = os.fdopen(os.dup(0), "rb")
    answers = os.fdopen(os.dup(1), "wb")
    # A pack that writes past Python's streams must not write into the answers.
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    os.dup2(nowhere, 2)
    while True:
        try:
            setting, orders = _receive(asking)
        except EOFError:
            return
        try:
            for outcome in outcomes(setting, orders):
                _send(answers, outcome)
        except BrokenPipeError:
            return
        except Exception as error:
            _send(answers, error if isinstance(error, Unfit) else Unfit(str(error)))


def _send(stream: IO[bytes], what: Any) -> None:
    data = pickle.dumps(what)
    stream.write(_SIZE.pack(len(data)) + data)
    stream.flush()


def _receive(stream: IO[bytes]) -> Any:
    head = stream.read(_SIZE.size)
    if len(head) < _SIZE.size:
        raise EOFError
    (size,) = _SIZE.unpack(head)
    data = stream.read(size)
    if len(data) < size:
        raise EOFError
    return pickle.loads(data)
