"""What `parts log` and `parts as-of` print as JSON; its schema is made of these classes."""

from __future__ import annotations

from typing import Any, Literal

import msgspec


class RevisionEntry(msgspec.Struct, frozen=True):
    """One state of a part.

    changed_at -- when it was entered, UTC
    sha256     -- of the canonical JSON of `stated`; null where the part was removed
    stated     -- the whole part, numbers in SI units (temperatures in degC); null: removed
    """

    part: str
    revision: int
    changed_at: str
    changed_by: str
    why: str | None
    status: Literal["draft", "reviewed", "retired", "removed"] | None
    sha256: str | None
    stated: dict[str, Any] | None


class HistoryAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """The answer: of `log` every state of a part, of `as-of` the one of that moment of each part.

    at             -- the moment that was asked for (`as-of`)
    history_begins -- when the catalogue's history begins (`as-of`); null: it has none
    """

    answer: Literal["log", "as-of"]
    at: str | None = None
    history_begins: str | None = None
    revisions: list[RevisionEntry]
