"""What a part states, as flat texts, and a digest of it by which a later change shows."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping

from catalogue.cells import to_cells
from catalogue.parts import Part


def content_of(part: Part) -> dict[str, str]:
    """Every stated field as it was written, by the column of a sheet; with the kind.

    A quantity written in another unit is another content: what a document says was read anew.
    """
    extra = {name: _plain(value) for name, value in part.extra.items()}
    return {"kind": part.kind, **to_cells(part), **extra}


def _plain(value: object) -> str:
    """A pack's own value; numbers are written out exactly."""
    return value if isinstance(value, str) else repr(value)


def digest_of(content: Mapping[str, str]) -> str:
    """SHA-256 of a content, in hexadecimal digits; the order of the fields does not count."""
    text = json.dumps(dict(content), sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode("ascii")).hexdigest()
