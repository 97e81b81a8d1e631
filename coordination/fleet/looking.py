"""Finds the YAML files below folders, and tells a system file from others.

Symbolic links are followed, each folder once; what cannot be looked into is told, not passed over.
"""

from __future__ import annotations

import os
import re
import stat
from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple

from coordination.errors import BadInput, Problem
from coordination.measured.record_fields import RECORD
from coordination.reading.system_fields import SYSTEM

ENDINGS: Final = (".yaml", ".yml")
#: The seals, records and expectations that lie beside jobs end otherwise, or have no such key.
_FIRST: Final = re.compile(rb"^([ \t]*)(?![ \t#%]|---|\.\.\.)[^\s]", re.MULTILINE)
_KEY: Final = rb"[\"']?(\w+)[\"']?[ \t]*:(?=[ \t\r\n]|$)"
#: Keys of system files that no record of measurements has.
_OTHERS: Final = frozenset(name.encode() for name in SYSTEM.fields if name not in RECORD.fields)
_UTF16: Final = {b"\xff\xfe": "utf-16-le", b"\xfe\xff": "utf-16-be"}


class Found(NamedTuple):
    """The files that may be jobs, in order, and what could not be looked into: (path, reason).

    named -- those that were named themselves: jobs, whatever they hold
    odd   -- files of that ending that are none: pipes, devices, links that lead nowhere
    """

    paths: tuple[str, ...]
    named: frozenset[str]
    unreadable: tuple[tuple[str, str], ...]
    odd: tuple[str, ...]


def look(places: Iterable[str]) -> Found:
    """The YAML files below these folders, or these files themselves; each once.

    Raises BadInput: a place is not there, or is no folder and no file.
    """
    paths: dict[str, None] = {}
    named: set[str] = set()
    walk = _Walk()
    problems = []
    for place in places:
        try:
            mode = os.stat(place).st_mode
        except (OSError, ValueError) as error:
            reason = getattr(error, "strerror", None) or str(error)
            problems.append(Problem(place, 0, 0, reason.lower(), "a folder, or a system file"))
            continue
        if stat.S_ISREG(mode):
            paths[place] = None
            named.add(place)
        elif stat.S_ISDIR(mode):
            paths |= dict.fromkeys(walk.below(place))
        else:
            problems.append(Problem(place, 0, 0, "this is no file", "a folder, or a system file"))
    if problems:
        raise BadInput(tuple(problems))
    return Found(tuple(_once(paths)), frozenset(named), tuple(walk.unreadable), tuple(walk.odd))


def _once(paths: Iterable[str]) -> Iterator[str]:
    """Each file once, by its first name, though it was named in several ways."""
    seen = set()
    for path in paths:
        whole = os.path.abspath(path)
        if whole not in seen:
            seen.add(whole)
            yield path


class _Walk:
    """Goes through folders, each once: a link may lead back to where it stands."""

    def __init__(self) -> None:
        self._seen: set[tuple[int, int]] = set()
        self.unreadable: list[tuple[str, str]] = []
        self.odd: list[str] = []

    def below(self, folder: str) -> Iterator[str]:
        """The YAML files below, by name, those of a folder before those of the folders in it."""
        waiting = [folder]
        while waiting:
            at = waiting.pop()
            files, folders = self._entries(at)
            yield from files
            waiting.extend(reversed(folders))

    def _entries(self, folder: str) -> tuple[list[str], list[str]]:
        files: list[str] = []
        folders: list[str] = []
        try:
            status = os.stat(folder)
            if (status.st_dev, status.st_ino) in self._seen:
                return files, folders
            self._seen.add((status.st_dev, status.st_ino))
            with os.scandir(folder) as entries:
                for entry in sorted(entries, key=lambda each: os.fsencode(each.name)):
                    self._sort(entry, files, folders)
        except OSError as error:
            self.unreadable.append((folder, (error.strerror or str(error)).lower()))
        return files, folders

    def _sort(self, entry: os.DirEntry[str], files: list[str], folders: list[str]) -> None:
        fits = entry.name.lower().endswith(ENDINGS)
        try:
            if entry.is_dir():
                folders.append(entry.path)
            elif fits and entry.is_file():
                files.append(entry.path)
            elif fits:
                self.odd.append(entry.path)
        except OSError as error:
            reason = (error.strerror or str(error)).lower()
            if fits:
                self.unreadable.append((entry.path, reason))


def is_system(data: bytes) -> bool:
    """Whether a file's content is a system's, sound or broken: what is broken is told of.

    It has `system:` at the top level and nothing else, or with it another key of system files:
    records of measurements and the like name their system too. Or it has `sources:` and `circuits:`
    and lacks its name.
    """
    encoding = _UTF16.get(data[:2])
    if encoding:
        data = data[2:].decode(encoding, "replace").encode("utf-8")
    keys = _top_keys(data.removeprefix(b"\xef\xbb\xbf"))
    if b"system" in keys:
        return len(keys) == 1 or bool(keys & _OTHERS)
    return {b"sources", b"circuits"} <= keys


def _top_keys(data: bytes) -> set[bytes]:
    """What looks like a key of the outermost mapping; it is not read, and may be broken."""
    first = _FIRST.search(data)
    if first is None:
        return set()
    braces = data[first.end(1) : first.end(1) + 1] == b"{"
    start = rb"[{,]\s*" if braces else rb"^" + re.escape(first[1])
    return {match[1] for match in re.finditer(start + _KEY, data, re.MULTILINE)}
