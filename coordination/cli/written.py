"""Files that a command writes: the format a name asks for, the date, and never in part."""

from __future__ import annotations

import errno
import os
import stat
import tempfile
from collections.abc import Sequence
from datetime import UTC, date, datetime
from pathlib import Path

from coordination.checking import known_word


def format_of(output: str, formats: Sequence[str], what: str) -> str:
    """The format that a file's name asks for. Raises BadInput for another.

    what -- of what it is the format: "a picture"
    """
    ending = output.rpartition(".")[2].lower() if "." in Path(output).name else ""
    known_word(f"format of {what}", ending, formats, f"-o {output}")
    return ending


def known_language(code: str) -> str:
    """The code, if there is such a language. Raises BadInput."""
    if code != "en":
        from coordination.languages.files import languages

        known_word("language", code, languages(), "--language")
    return code


def today() -> date:
    """The date on the sheet; SOURCE_DATE_EPOCH [s since 1970] stands for it, if it is set."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    if epoch.isascii() and epoch.isdecimal() and len(epoch) < 12:
        return datetime.fromtimestamp(int(epoch), UTC).date()
    return date.today()


def write_whole(output: str, content: bytes) -> None:
    """Write a file that is never there in part; a device or a pipe is written as it is.

    Raises OSError; what was there before is then as it was.
    """
    path = Path(output)
    if path.exists() and not stat.S_ISREG(path.stat().st_mode):
        path.write_bytes(content)
        return
    target = path.resolve()
    if not target.parent.is_dir():
        raise FileNotFoundError(errno.ENOENT, "there is no such folder", output)
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=".fusewright-", suffix=".part")
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        part.chmod(target.stat().st_mode & 0o777 if target.exists() else 0o666 & ~_mask())
        part.replace(target)
    except BaseException:
        part.unlink(missing_ok=True)
        raise


def _mask() -> int:
    """The process's file mode mask, which can only be read by setting it."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
