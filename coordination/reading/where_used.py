"""Which system files below a folder name a part, and where: read as text trees, nothing resolved.

A file that cannot be read to its end is named with the reason: what it uses is not known.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from typing import Final, NamedTuple

from coordination.errors import BadInput, Problem
from coordination.reading.nodes import Listing, Node, Scalar, Table, tree
from coordination.reading.notes import Notes
from coordination.reading.text import decode, read_file

#: Keys whose value is the id of a part.
_KEYS: Final = frozenset({"part", "fuse", "breaker", "disconnect", "channel", "cable"})
#: Keys of which a system file has one at least; other YAML files are not looked through.
_SYSTEM: Final = frozenset({"system", "sources", "circuits", "busbars", "equipment"})
_ENDINGS: Final = (".yaml", ".yml")


class Use(NamedTuple):
    """One place that names the part: file, line and column, the way there, what is meant.

    own -- the file has a part of that id of its own, which is meant instead of the catalogue's
    """

    file: str
    line: int
    column: int
    where: str
    own: bool


class Found(NamedTuple):
    """What was found: uses by file and line, files that could not be read, and how many were."""

    uses: tuple[Use, ...]
    broken: tuple[Problem, ...]
    systems: int
    others: int


def where_used(part_id: str, folder: str) -> Found:
    """Every use of the part in the system files below a folder, or in one file.

    Raises BadInput if there is no such folder.
    """
    if not os.path.exists(folder):
        raise BadInput((Problem(folder, 0, 0, "there is no such folder or file"),))
    uses: list[Use] = []
    broken: list[Problem] = []
    systems = others = 0
    for path in _files(folder, broken):
        notes = Notes(path)
        try:
            root = tree(decode(read_file(path), path), notes)
            notes.raise_if_any()
        except BadInput as error:
            broken.append(_first(error, path))
            continue
        if not isinstance(root, Table) or not _SYSTEM & root.entries.keys():
            others += 1
            continue
        systems += 1
        uses.extend(_uses(part_id, path, root))
    return Found(tuple(uses), tuple(broken), systems, others)


def _files(folder: str, broken: list[Problem]) -> Iterator[str]:
    """The YAML files below, in order; hidden folders are left aside, unreadable ones noted."""
    if not os.path.isdir(folder):
        yield folder
        return

    def unreadable(error: OSError) -> None:
        reason = (error.strerror or str(error)).lower()
        what = f"the folder cannot be read: {reason}"
        broken.append(Problem(str(error.filename), 0, 0, what))

    for place, folders, files in os.walk(folder, onerror=unreadable):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(files):
            if name.lower().endswith(_ENDINGS):
                yield os.path.join(place, name)


def _first(error: BadInput, path: str) -> Problem:
    """The first problem of a file, for a line that names it."""
    return min(
        error.problems,
        key=lambda problem: (problem.line, problem.column),
        default=Problem(path, 0, 0, "the file cannot be read"),
    )


def _uses(part_id: str, path: str, root: Table) -> Iterator[Use]:
    parts = root.entries.get("parts")
    own = parts is not None and isinstance(parts[1], Table) and part_id in parts[1].entries
    for section, (_, node) in root.entries.items():
        if section != "parts":
            for where, at in _walk(node, (section,)):
                if at.text == part_id:
                    yield Use(path, at.line, at.column, where, own)


def _walk(node: Node, way: tuple[str, ...]) -> Iterator[tuple[str, Scalar]]:
    """Every value of a key that names a part, with the way to it in words."""
    if isinstance(node, Table):
        named = node.entries.get("name")
        if named is not None and isinstance(named[1], Scalar) and way[-1].isdecimal():
            way = (named[1].text,)
        for key, (_, value) in node.entries.items():
            if key in _KEYS and isinstance(value, Scalar):
                yield _words(way), value
            else:
                yield from _walk(value, (*way, key))
    elif isinstance(node, Listing):
        for number, item in enumerate(node.items, start=1):
            yield from _walk(item, (*way, str(number)))


def _words(way: tuple[str, ...]) -> str:
    """An element by its name: "port feed/3", "main fuse"; else "sources, port pack"."""
    steps = [step for step in way if step != "parts"]
    if len(steps) > 2 and steps[0] == "circuits":
        steps = ["/".join(steps[1:3]), *steps[3:]]
    return ", ".join(steps)
