"""Puts the parts of a file into the shop's catalogue while they are read: all of them or none.

Parts come in portions and are never all in memory; a problem in the last row takes back the first.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Final

from catalogue.changes import Change, Saved, change_by
from catalogue.errors import CatalogueError
from catalogue.parts import Part
from catalogue.reviews import refuse_lost_successors, refuse_unvouched
from catalogue.revisions import digest_of
from catalogue.saving import put
from catalogue.shop import own_path, several
from catalogue.writing import open_for_change, quiet, transaction

if TYPE_CHECKING:
    from sqlite_utils import Database

_PORTION: Final = 2000
#: Pages kept in memory while a large file is written [KiB]: ids come in no order.
_CACHE: Final = 200_000


def import_parts(
    path: str | None,
    parts: Iterable[Part],
    *,
    replace: bool = False,
    by: str | None = None,
    why: str | None = None,
    tell: Callable[[str], None] = quiet,
) -> Saved:
    """Put parts into the shop's catalogue; how many are new, changed, and as they were.

    replace -- whether a part that is there may change
    by, why -- whose change it is, and the reason
    Raises CatalogueError (nothing is changed then), whatever the parts raise, OSError.
    """
    named, change = own_path(path), change_by(by, why)
    if Path(named).exists():
        return _put(Path(named), parts, replace, change, tell)
    # A file that nobody can have opened yet: refused parts leave none behind.
    with _made_aside(Path(named)) as aside:
        return _put(aside, parts, replace, change, tell)


def _put(
    path: Path, parts: Iterable[Part], replace: bool, change: Change, tell: Callable[[str], None]
) -> Saved:
    with open_for_change(path, tell=tell) as db:
        db.execute(f"PRAGMA cache_size = -{_CACHE}")
        with transaction(db):
            saved = put(db, _fit(db, parts, replace, change.by), change)
            refuse_lost_successors(db)
        return saved


@contextmanager
def _made_aside(path: Path) -> Iterator[Path]:
    """A name beside `path` for a new catalogue, which gets its own name when all went well.

    Raises CatalogueError if somebody has made a file of that name meanwhile; theirs stays.
    """
    if not path.parent.is_dir():
        yield path
        return
    aside = path.parent / f".{path.name}.{os.getpid()}.part"
    try:
        yield aside
        _named(aside, path)
    except CatalogueError as error:
        if type(error) is not CatalogueError:
            raise
        # What is told is about the file that was asked for.
        raise CatalogueError(str(error).replace(str(aside), str(path))) from error
    finally:
        for ending in ("", "-wal", "-shm"):
            Path(f"{aside}{ending}").unlink(missing_ok=True)


def _named(aside: Path, path: Path) -> None:
    """Give the file its name. Raises CatalogueError if there is a file of that name."""
    try:
        os.link(aside, path)
    except FileExistsError:
        what = f"{str(path)!r} was made by somebody else meanwhile"
        raise CatalogueError(f"{what}; nothing was changed: import again") from None
    except OSError:
        # A disk that knows no second names.
        if path.exists():
            raise
        aside.rename(path)


def _fit(db: Database, parts: Iterable[Part], replace: bool, by: str) -> Iterator[Part]:
    """The parts; those that may not come in are noted, and refused in the end."""
    known: list[str] = []
    stream = iter(parts)
    while portion := list(islice(stream, _PORTION)):
        refuse_unvouched(db, portion, by)
        if not replace:
            known.extend(_would_change(db, portion))
        yield from portion
    if known:
        what = f"already in the catalogue, with other figures: {several(known)}"
        raise CatalogueError(f"{what}; --replace puts the new in, --dry-run shows what differs")


def _would_change(db: Database, parts: list[Part]) -> list[str]:
    """The ids of parts that are there and state something else."""
    ids = json.dumps([part.id for part in parts])
    last = dict(
        db.execute(
            "SELECT part.id, (SELECT sha256 FROM revision WHERE part_id = part.id "
            "ORDER BY number DESC LIMIT 1) FROM part WHERE id IN (SELECT value FROM json_each(?))",
            [ids],
        ).fetchall()
    )
    return [part.id for part in parts if part.id in last and digest_of(part) != last[part.id]]
