"""Writes a changed system file: whole or not at all, and only over the text that was judged."""

from __future__ import annotations

import os
import stat
import tempfile

from coordination.errors import BadInput, Problem
from coordination.suggest.document import Document


def apply_text(path: str, document: Document, text: str) -> None:
    """Put the text in place of the file's; links are followed, the mode is kept.

    Raises BadInput: the file has changed since, is no plain file, or must not be written; OSError.
    """
    target = os.path.realpath(path)
    before = os.stat(target)
    if not stat.S_ISREG(before.st_mode):
        raise _refused(path, "it is no plain file")
    if not before.st_mode & 0o222 or not os.access(target, os.W_OK):
        raise _refused(path, "it is read-only")
    folder, name = os.path.split(target)
    handle, temporary = tempfile.mkstemp(prefix=f".{name[:100]}.", dir=folder)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(document.bytes_of(text))
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(temporary, stat.S_IMODE(before.st_mode))
        with open(target, "rb") as stream:
            if stream.read() != document.data:
                raise _refused(path, "it was changed while changes were looked for")
        os.replace(temporary, target)
    except BaseException:
        os.unlink(temporary)
        raise


def _refused(path: str, why: str) -> BadInput:
    return BadInput((Problem(path, 0, 0, f"nothing was written: {why}"),))
