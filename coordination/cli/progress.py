"""A bar on standard error, where that is a terminal: how far a long run is."""

from __future__ import annotations

import sys
import time

#: Seconds between two drawings.
_PAUSE = 0.1
_BAR = 24


class Progress:
    """Counts up to `total`; draws nothing unless a person sees it."""

    def __init__(self, total: int) -> None:
        self._total, self._done = max(total, 1), 0
        self._began = self._drawn = time.monotonic()
        self._shown = False
        try:
            self._seen = sys.stderr is not None and sys.stderr.isatty()
        except ValueError:
            self._seen = False

    def step(self, words: str) -> None:
        """One more is done; `words` are put behind the bar."""
        self._done += 1
        now = time.monotonic()
        if not self._seen or (now - self._drawn < _PAUSE and self._done < self._total):
            return
        self._drawn = now
        full = _BAR * self._done // self._total
        left = (self._total - self._done) * (now - self._began) / self._done
        bar = "#" * full + "." * (_BAR - full)
        self._write(f"\r[{bar}] {self._done}/{self._total}  {words}  {_clock(left)} left\x1b[K")
        self._shown = True

    def clear(self) -> None:
        """Take the bar away, for other lines to be printed."""
        if self._shown:
            self._write("\r\x1b[K")
            self._shown = False

    @staticmethod
    def _write(text: str) -> None:
        try:
            sys.stderr.write(text)
            sys.stderr.flush()
        except OSError:
            pass


def _clock(seconds: float) -> str:
    minutes, rest = divmod(int(seconds), 60)
    return f"{minutes // 60}:{minutes % 60:02}:{rest:02}"
