"""Who changes the catalogue, when and why: what is kept of every command that writes."""

from __future__ import annotations

import os
import unicodedata
from datetime import UTC, datetime
from typing import Final, NamedTuple

from catalogue.errors import CatalogueError

#: Names who changes the catalogue, where no option does.
VARIABLE: Final = "FUSEWRIGHT_BY"
_LONGEST: Final = 200


class Change(NamedTuple):
    """One command's change. Make it with `change_by`.

    by  -- who makes it
    why -- the reason, where one was given
    at  -- the time, UTC: 2026-03-02T14:05:09.123Z
    """

    by: str
    why: str | None
    at: str


class Saved(NamedTuple):
    """How many parts a change added, changed, and found as they were."""

    added: int = 0
    changed: int = 0
    unchanged: int = 0


def change_by(by: str | None = None, why: str | None = None) -> Change:
    """A change made now, by the name given, else FUSEWRIGHT_BY, else the login name.

    Raises CatalogueError: nobody is named, or a text is empty or too long.
    """
    name = " ".join((by or os.environ.get(VARIABLE) or _login()).split())
    if not name or len(name) > _LONGEST or not _fit(name):
        raise CatalogueError(f"who changes the catalogue? Say it with --by NAME or {VARIABLE}")
    if why is not None and not (why.strip() and _fit(why)):
        raise CatalogueError("--why wants a reason in words")
    return Change(name, why, now())


def now() -> str:
    """The time as the catalogue keeps it: UTC, to the millisecond."""
    return datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def same_name(one: str, other: str) -> bool:
    """Whether two names are one person's, as far as letters tell: case and blanks do not."""
    return _folded(one) == _folded(other)


def _folded(name: str) -> str:
    return "".join(unicodedata.normalize("NFKC", name).casefold().split())


def _fit(text: str) -> bool:
    return "\0" not in text and not any("\ud800" <= sign <= "\udfff" for sign in text)


def _login() -> str:
    import getpass

    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return ""
