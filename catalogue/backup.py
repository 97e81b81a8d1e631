"""Whole copies of a catalogue, made while others read and write; a target is replaced or left."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

from catalogue.errors import CatalogueError, meaning
from catalogue.store import APPLICATION_ID, PATIENCE, file_uri


def back_up(path: Path, target: Path) -> None:
    """Copy the catalogue at `path`, as it stands at one moment, to `target`, whole or not at all.

    Raises CatalogueError: no such file, no catalogue, the same file, no place to write, no room.
    """
    if not path.is_file():
        raise CatalogueError(f"there is no catalogue file {str(path)!r}")
    if target.is_dir() or (target.exists() and target.samefile(path)):
        raise CatalogueError(f"a backup of {str(path)!r} wants another file, not {str(target)!r}")
    if target.exists() and not _is_catalogue(target):
        raise CatalogueError(f"{str(target)!r} is there and no parts catalogue; name another file")
    made = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        _copy(path, made)
        if not _is_catalogue(made):
            raise CatalogueError(f"{str(path)!r} is a database, but no parts catalogue")
        os.replace(made, target)
        _settle(target.parent)
    except sqlite3.Error as error:
        raise CatalogueError(meaning(error, str(target), "written")) from error
    except OSError as error:
        raise CatalogueError(f"{str(target)!r} cannot be written: {error.strerror}") from error
    finally:
        made.unlink(missing_ok=True)


def _is_catalogue(path: Path) -> bool:
    """Whether a file bears the mark of a catalogue; any layout."""
    try:
        with open(path, "rb") as file:
            head = file.read(100)
    except OSError:
        return False
    return head[:15] == b"SQLite format 3" and head[68:72] == APPLICATION_ID.to_bytes(4, "big")


def _copy(path: Path, made: Path) -> None:
    """One read transaction over all pages, so that nobody's change comes between."""
    source = sqlite3.connect(f"{file_uri(str(path))}?mode=ro", uri=True, timeout=PATIENCE)
    try:
        made.unlink(missing_ok=True)
        copy = sqlite3.connect(made)
        try:
            source.backup(copy)
            # A copy is one file: it may lie where nothing can be written beside it.
            copy.execute("PRAGMA journal_mode = DELETE")
        finally:
            copy.close()
    finally:
        source.close()
    with open(made, "rb+") as file:
        os.fsync(file.fileno())


def _settle(folder: Path) -> None:
    """Make the new name last through a power cut, where folders can be synced."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError:
        return
    try:
        os.fsync(handle)
    except OSError:
        pass
    finally:
        os.close(handle)


def before_migration(path: Path, version: int) -> Path:
    """Keep the file as it is in layout `version` beside it; where. Never over another backup."""
    number = 1
    while True:
        more = f"-{number}" if number > 1 else ""
        target = path.with_name(f"{path.name}.layout-{version}{more}.backup")
        if not target.exists():
            break
        number += 1
    back_up(path, target)
    return target
