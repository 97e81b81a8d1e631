"""A system file's text with the place of every value in it, so that it can be changed in place.

Built on the nodes that PyYAML composes; comments, order, quoting and line ends are never touched.
Only files that were read without a problem come here: no anchors, no tags, no duplicate keys.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, Final

import yaml

from coordination.reading.text import decode

_LOADER: Final = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
_LINE: Final = re.compile(r"\r\n|\r|\n")
_BOM: Final = b"\xef\xbb\xbf"
#: Texts that mean themselves wherever a value may stand; the reader keeps every text as it is.
_PLAIN: Final = re.compile(r"[A-Za-z0-9](?:[\w./+@°²-]| (?=[\w./+@]))*")
_NOTHING: Final = frozenset(("null", "Null", "NULL"))


class CannotEdit(Exception):  # noqa: N818 -- says what stands in the way, to be named as a bound
    """The text is written in a way that is not changed in place."""


class Document:
    """A file's text and the nodes in it."""

    def __init__(self, data: bytes, file: str) -> None:
        """Raises BadInput for what is no text."""
        self.data = data
        self.text = decode(data, file)
        self._bom = data.startswith(_BOM)
        self._lines = [0, *(match.end() for match in _LINE.finditer(self.text))]
        root = yaml.compose(self.text, Loader=_LOADER)
        self.root = root if isinstance(root, yaml.MappingNode) else None

    @property
    def newline(self) -> str:
        """The line end that the file uses first."""
        found = _LINE.search(self.text)
        return found[0] if found else "\n"

    def bytes_of(self, text: str) -> bytes:
        """The text as it is stored: with a byte order mark where the file had one."""
        return (_BOM if self._bom else b"") + text.encode("utf-8")

    def at(self, mark: Any) -> int:
        """Where in the text a mark of PyYAML is."""
        return int(self._lines[mark.line] + mark.column)

    def find(self, *steps: str | int) -> yaml.Node:
        """The node at the end of these keys and list places. Raises CannotEdit: there is none."""
        node: yaml.Node | None = self.root
        for step in steps:
            node = self.step(node, step)
        if node is None:
            raise CannotEdit("it is not written in the file")
        return node

    def find_in(self, node: yaml.Node, field: str) -> yaml.Node:
        """The value of a field of a mapping. Raises CannotEdit: it is not there."""
        value = self.step(node, field)
        if value is None:
            raise CannotEdit(f"{field} is not written in it")
        return value

    def step(self, node: yaml.Node | None, step: str | int) -> yaml.Node | None:
        """What a key or a list place leads to; None where there is none."""
        if isinstance(step, str) and isinstance(node, yaml.MappingNode):
            return next((value for key, value in node.value if key.value == step), None)
        if isinstance(step, int) and isinstance(node, yaml.SequenceNode):
            return node.value[step] if step < len(node.value) else None
        return None

    def key(self, node: yaml.Node, name: str) -> yaml.Node | None:
        """The key of that name in a mapping, as a node."""
        pairs = node.value if isinstance(node, yaml.MappingNode) else ()
        return next((key for key, _ in pairs if key.value == name), None)

    def span(self, node: yaml.Node) -> tuple[int, int]:
        """Where a plain or quoted text stands. Raises CannotEdit: a block, or several lines."""
        start, end = self.at(node.start_mark), self.at(node.end_mark)
        written = self.text[start:end]
        if not isinstance(node, yaml.ScalarNode) or node.style in ("|", ">"):
            raise CannotEdit("it is not written as one short text")
        if _LINE.search(written) or (node.style is None and written != node.value):
            raise CannotEdit("it is written over several lines")
        return start, end

    def end_of(self, node: yaml.Node) -> int:
        """Where the last character of a node stands; of a block, of the last value in it."""
        if isinstance(node, yaml.ScalarNode):
            nothing = not node.value and not node.style
            return self.at(node.start_mark) if nothing else self.span(node)[1]
        if flows(node):
            return self.at(node.end_mark)
        last = node.value[-1]
        key, value = last if isinstance(last, tuple) else (None, last)
        if key is not None and isinstance(value, yaml.ScalarNode) and not value.value:
            return max(self.end_of(key) + 1, self.end_of(value))
        return self.end_of(value)

    def line_start(self, at: int) -> int:
        """Where the line begins in which a character stands."""
        return max(start for start in self._lines if start <= at)

    def line_end(self, at: int) -> int:
        """Where the next line begins, or the text ends."""
        return next((start for start in self._lines if start > at), len(self.text))

    def circuits(self) -> Iterator[tuple[str, str]]:
        """Every circuit's name with the place that it states for its parts, "" where none."""
        node = self.step(self.root, "circuits")
        for key, circuit in node.value if isinstance(node, yaml.MappingNode) else ():
            place = self.step(circuit, "place")
            yield key.value, place.value if isinstance(place, yaml.ScalarNode) else ""


def flows(node: yaml.Node) -> bool:
    """Whether a list or a mapping is written in brackets or braces."""
    return isinstance(node, yaml.CollectionNode) and bool(node.flow_style)


def written(text: str, style: str | None = None) -> str:
    """A text as YAML that can stand inside braces too, in the quotes that stood there.

    >>> written("fuse-t-300"), written("it's, {odd}"), written("x", '"')
    ('fuse-t-300', "'it''s, {odd}'", '"x"')
    """
    if style == '"':
        return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
    if style != "'" and _PLAIN.fullmatch(text) and text not in _NOTHING:
        return text
    return "'" + text.replace("'", "''") + "'"
