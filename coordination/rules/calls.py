"""Calls a pack's functions so that what goes wrong in one costs nothing but its own answer.

A call may not last longer than a limit, print, end the program or raise; whatever it does of that
becomes a `MisdeedError`. The limit needs POSIX timers and the main thread; elsewhere there is none,
and nowhere does it end a call that stays inside one C function (a sum over a huge range).
"""

from __future__ import annotations

import io
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType
from typing import Any, Final, TypeVar

T = TypeVar("T")

#: Longest time [s] that one rule may take over one subject in one condition.
LIMIT: Final = 5.0
#: How often the clock looks, as a share of the limit.
_TICK: Final = 0.1
#: How much of what a rule prints is kept for the message.
_SHOWN: Final = 60


class MisdeedError(Exception):
    """A call that did what no rule may; the text says what, the cause is the exception if any."""


class TimeLimit(BaseException):
    """Raised inside a call that lasts too long; no `except Exception` there can swallow it."""


class Calls:
    """Calls one after another; made by `guarded`."""

    def __init__(self, limit: float, *, errors: bool = True) -> None:
        self.limit = limit
        self._errors = errors
        self._began: float | None = None
        self._out = _Ear()

    def __call__(self, function: Callable[..., T], *arguments: Any, **named: Any) -> T:
        """What the function gives. Raises MisdeedError."""
        try:
            self._began = time.monotonic()
            try:
                given = function(*arguments, **named)
            finally:
                self._began = None
        except KeyboardInterrupt:
            raise
        except TimeLimit as error:
            raise MisdeedError(f"took longer than {self.limit:g} s") from error
        except BaseException as error:
            self._out.take()
            raise MisdeedError(f"{type(error).__name__}: {error}") from error
        finally:
            self._began = None
        if self._out.heard:
            raise MisdeedError(f"printed {self._out.take()!r}")
        return given

    def _look(self, _: int, __: FrameType | None) -> None:
        if self._began is not None and time.monotonic() - self._began > self.limit:
            raise TimeLimit

    @contextmanager
    def _watched(self) -> Iterator[None]:
        before = sys.stdout, sys.stderr
        sys.stdout = self._out
        if self._errors:
            sys.stderr = self._out
        try:
            with self._timer():
                yield
        finally:
            sys.stdout, sys.stderr = before

    @contextmanager
    def _timer(self) -> Iterator[None]:
        import signal

        try:
            old = signal.signal(signal.SIGALRM, self._look)
        except (AttributeError, ValueError):
            # No such signal on this system, or not in the main thread.
            yield
            return
        tick = self.limit * _TICK
        signal.setitimer(signal.ITIMER_REAL, tick, tick)
        try:
            yield
        finally:
            signal.setitimer(signal.ITIMER_REAL, 0.0)
            signal.signal(signal.SIGALRM, old)


class _Ear(io.TextIOBase):
    """Stands for the standard streams and keeps the beginning of what is written.

    heard -- what was written since the last time
    """

    def __init__(self) -> None:
        self.heard = ""

    def writable(self) -> bool:
        return True

    def write(self, text: str, /) -> int:
        self.heard += text[: _SHOWN - len(self.heard)]
        return len(text)

    def take(self) -> str:
        """What was written since the last time; it is forgotten."""
        heard, self.heard = self.heard, ""
        return heard


@contextmanager
def guarded(limit: float = LIMIT, *, errors: bool = True) -> Iterator[Calls]:
    """Calls under guard; standard output and error are put back at the end.

    errors -- standard error counts as printing too
    """
    calls = Calls(limit, errors=errors)
    with calls._watched():
        yield calls
