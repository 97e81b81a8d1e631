"""Bytes of a file to text that can be read and shown: UTF-8 without control characters.

Knows encodings and sizes only; what the text says is for `nodes`.
"""

from __future__ import annotations

import re
from typing import Final

from coordination.errors import BadInput, Problem

#: Largest file [bytes] that is read; 2,000 lines are about 70,000.
LARGEST: Final = 2_000_000

_UTF16_32: Final = (b"\xff\xfe", b"\xfe\xff", b"\x00\x00\xfe\xff")
#: What YAML forbids, DEL and the C1 block (a terminal would obey them), and the line breaks that
#: editors do not count as such.
_FORBIDDEN: Final = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ufffe\uffff]"
)


def read_file(path: str) -> bytes:
    """The bytes of the file at `path`. Raises BadInput if it cannot be read or is too large."""
    try:
        with open(path, "rb") as stream:
            return stream.read(LARGEST + 1)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise _bad(path, f"the file cannot be read: {reason.lower()}") from error


def decode(data: bytes, file: str) -> str:
    """`data` as text; `file` names it in problems. Raises BadInput naming the first bad place."""
    if len(data) > LARGEST:
        raise _bad(file, f"the file is larger than {LARGEST // 1_000_000} MB: no system file is")
    if data.startswith(_UTF16_32) or data[1:2] == b"\x00" or data[:1] == b"\x00":
        raise _bad(file, "the file is UTF-16 or binary", "a text file saved as UTF-8")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8-sig", "replace")
        what = f"byte 0x{data[error.start]:02X} is not UTF-8 text"
        raise _bad(file, what, "a text file saved as UTF-8", before) from error
    found = _FORBIDDEN.search(text)
    if found is not None:
        what = f"character U+{ord(found[0]):04X} cannot stand in a system file"
        raise _bad(file, what, "printable text", text[: found.start()])
    return text


def _bad(file: str, what: str, allowed: str = "", before: str | None = None) -> BadInput:
    """BadInput with one problem, at the place that follows the text `before` (None: whole file)."""
    if before is None:
        return BadInput((Problem(file, 0, 0, what, allowed),))
    line = before.count("\n") + 1
    column = len(before) - before.rfind("\n")
    return BadInput((Problem(file, line, column, what, allowed),))


def in_words(path: str) -> str:
    """A field's path for a message: rows are counted from 1, as people do."""
    words = ""
    for step in path.split("."):
        if step.isdigit():
            words += f" row {int(step) + 1}"
        else:
            words += f"{'' if not words else ', ' if words[-1].isdigit() else '.'}{step}"
    return words


def quoted(text: str, longest: int = 60) -> str:
    """`text` in quotes for a message: printable, on one line, and no longer than `longest`."""
    short = text if len(text) <= longest else text[: longest - 1] + "…"
    return f"'{short}'" if short.isprintable() else ascii(short)
