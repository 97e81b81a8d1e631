"""What is done of a run, in a file that outlives it: a line a job, with what it rests on.

Lines are only added, each with its checksum: what a killed run left half-written is passed over. A
job is found there by its place, and is done anew if anything it rests on has changed.
"""

from __future__ import annotations

import fcntl
import json
import os
import time
import zlib
from typing import Any, Final, NamedTuple

from coordination.errors import BadInput, Problem
from coordination.fleet.setting import Outcome

HEADER: Final = b"fusewright recheck state 1\n"
_KIND: Final = HEADER.rpartition(b" ")[0]
#: How often [s] what was written is put on the disk itself; a killed program loses nothing.
_SYNC: Final = 2.0


class Done(NamedTuple):
    """A job of the last time: its line, and what that rests on."""

    line: dict[str, Any]
    key: dict[str, Any]


class State:
    """The file of a run; one run at a time."""

    def __init__(self, path: str) -> None:
        """Open it, or make it. Raises BadInput: another file, a newer one, in use, unwritable."""
        self.path = path
        try:
            self._stream = open(path, "a+b")  # noqa: SIM115 -- open as long as the run
        except (OSError, ValueError) as error:
            reason = getattr(error, "strerror", None) or str(error)
            raise self._bad(f"the state cannot be kept there: {reason.lower()}") from error
        try:
            fcntl.flock(self._stream, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as error:
            self._stream.close()
            raise self._bad("another recheck is using it") from error
        self._places: dict[str, int] = {}
        self._synced = time.monotonic()
        self._read()

    def _bad(self, what: str) -> BadInput:
        return BadInput((Problem(self.path, 0, 0, what, "a file of its own for --resume"),))

    def _read(self) -> None:
        stream = self._stream
        stream.seek(0)
        first = stream.readline(200)
        if first != HEADER:
            self._begin(first)
        last = first
        place = stream.tell()
        for last in stream:
            found = _understood(last)
            if found is not None:
                self._places[found["path"]] = place
            place += len(last)
        if last and not last.endswith(b"\n"):
            stream.write(b"\n")

    def _begin(self, first: bytes) -> None:
        """Write the header, where there is none but the beginning of one."""
        if first.startswith(_KIND) and first.endswith(b"\n"):
            self._stream.close()
            raise self._bad("it was made by another version of Fusewright")
        if not HEADER.startswith(first):
            self._stream.close()
            raise self._bad("this is not the state of a recheck; it was left as it is")
        self._stream.truncate(0)
        self._stream.write(HEADER)
        self._stream.flush()
        self._stream.seek(0, os.SEEK_END)

    def __len__(self) -> int:
        return len(self._places)

    def done(self, path: str) -> Done | None:
        """What is known of a job; None: nothing."""
        place = self._places.get(os.path.abspath(path))
        if place is None:
            return None
        self._stream.seek(place)
        found = _understood(self._stream.readline())
        return None if found is None else Done(found["line"], found["key"])

    def keep(self, outcome: Outcome) -> None:
        """Add a job that is done, if its outcome is one to keep. Raises OSError: the disk is full.

        What is not kept, or was kept already, changes nothing.
        """
        if outcome.key is None or outcome.kept:
            return
        path = os.path.abspath(outcome.line["file"])
        record = {"path": path, "line": outcome.line, "key": outcome.key}
        text = json.dumps(record, separators=(",", ":")).encode("ascii")
        self._stream.seek(0, os.SEEK_END)
        place = self._stream.tell()
        try:
            self._stream.write(b"%08x %s\n" % (zlib.crc32(text), text))
            self._stream.flush()
        except OSError as error:
            raise OSError(error.errno, error.strerror, self.path) from error
        self._places[path] = place
        if time.monotonic() - self._synced > _SYNC:
            os.fsync(self._stream.fileno())
            self._synced = time.monotonic()

    def close(self) -> None:
        """Put it on the disk, and let go of it."""
        if not self._stream.closed:
            self._stream.flush()
            os.fsync(self._stream.fileno())
            self._stream.close()


def _understood(line: bytes) -> dict[str, Any] | None:
    """A line's record; None if it is damaged, or was never finished."""
    checksum, _, text = line.rstrip(b"\n").partition(b" ")
    try:
        if int(checksum, 16) != zlib.crc32(text) or not line.endswith(b"\n"):
            return None
        found = json.loads(text)
    except ValueError:
        return None
    return found if isinstance(found, dict) and {"path", "line", "key"} <= set(found) else None
