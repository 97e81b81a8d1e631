"""Text to a tree of mappings, lists and texts that know their places; no YAML magic.

Built on the parser's events, so that nothing is ever expanded or resolved: anchors, aliases, tags,
merge keys, duplicate keys, odd keys and further documents are noted as problems, and deep nesting
ends the reading. Every scalar stays text; what it means is decided by the field that holds it.
"""

from __future__ import annotations

from typing import Any, Final

import yaml

from coordination.errors import BadInput
from coordination.reading.notes import Notes
from coordination.reading.syntax import in_plain_words
from coordination.reading.text import quoted

#: Deepest nesting; a system file needs six levels.
DEEPEST: Final = 32
#: Most nodes of one file; 2,000 lines have about 10,000.
MOST: Final = 100_000

_LOADER: Final = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


_DIGITS: Final = frozenset("0123456789")
_NOTHING: Final = frozenset(("", "~", "null", "Null", "NULL"))


class Scalar:
    """A text at its place; `quoted` tells a text from what YAML would make of it."""

    __slots__ = ("column", "line", "quoted", "text")

    def __init__(self, text: str, line: int, column: int, quoted: bool = False) -> None:
        self.text, self.line, self.column, self.quoted = text, line, column, quoted

    def nothing(self) -> bool:
        """Whether it stands for no value: empty, or YAML's ways of saying so."""
        return self.text in _NOTHING and not self.quoted


class Broken(Scalar):
    """A value whose problem is already noted: nothing more is said of it."""

    __slots__ = ()


class Listing:
    """A list at its place."""

    __slots__ = ("column", "items", "line")

    def __init__(self, line: int, column: int) -> None:
        self.items: list[Node] = []
        self.line, self.column = line, column


class Table:
    """A mapping at its place: key text to (key, value)."""

    __slots__ = ("column", "entries", "line")

    def __init__(self, line: int, column: int) -> None:
        self.entries: dict[str, tuple[Scalar, Node]] = {}
        self.line, self.column = line, column


Node = Scalar | Listing | Table


def tree(text: str, notes: Notes) -> Node:
    """The root node of the one document in `text`; what is wrong on the way goes to `notes`.

    Raises BadInput (with everything noted so far) where reading cannot go on: broken syntax,
    nesting deeper than DEEPEST, more than MOST nodes, nothing in the file.
    """
    try:
        builder = _Builder(text, notes)
        return builder.document()
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        place = Scalar("", mark.line + 1, mark.column + 1) if mark else Scalar("", 0, 0)
        notes.say(place, in_plain_words(error, text))
    except yaml.YAMLError:
        notes.say(Scalar("", 0, 0), "the file holds a character that cannot be read")
    except _Stop:
        pass
    notes.raise_if_any()
    raise BadInput(())


class _Stop(Exception):  # noqa: N818 -- not an error of its own: the problem is already noted
    """Reading cannot go on."""


class _Builder:
    """Turns events into nodes; nesting is bounded, so it may call itself."""

    def __init__(self, text: str, notes: Notes) -> None:
        self._next = _LOADER(text).get_event
        self._notes = notes
        self._left = MOST

    def document(self) -> Node:
        self._next()
        start = self._next()
        if isinstance(start, yaml.StreamEndEvent):
            self._stop(Scalar("", 0, 0), "the file is empty", "system, sources, circuits at least")
        root = self._node(self._next(), 0)
        self._next()
        more = self._next()
        if not isinstance(more, yaml.StreamEndEvent):
            self._notes.say(_at(more), "a second document begins here", "one system in one file")
        return root

    def _stop(self, at: Scalar, what: str, allowed: str = "") -> None:
        self._notes.say(at, what, allowed)
        raise _Stop

    def _node(self, event: Any, depth: int) -> Node:
        """The node that begins with `event`."""
        self._left -= 1
        if self._left < 0:
            self._stop(_at(event), f"the file holds more than {MOST:,} values: no system file does")
        kind = event.__class__
        mark = event.start_mark
        if kind is yaml.ScalarEvent:
            if event.anchor is not None or event.tag is not None:
                self._refuse_properties(event)
            return Scalar(event.value, mark.line + 1, mark.column + 1, bool(event.style))
        if kind is yaml.AliasEvent:
            self._notes.say(_at(event), f"alias {quoted('*' + event.anchor)} is not allowed",
                            "write the value out where it is needed")
            return Broken("", mark.line + 1, mark.column + 1)
        if event.anchor is not None or event.tag is not None:
            self._refuse_properties(event)
        if depth >= DEEPEST:
            self._stop(_at(event), f"nesting is deeper than {DEEPEST} levels")
        if kind is yaml.MappingStartEvent:
            return self._table(mark, depth + 1)
        return self._listing(mark, depth + 1)

    def _refuse_properties(self, event: Any) -> None:
        if event.anchor is not None:
            self._notes.say(_at(event), f"anchor {quoted('&' + event.anchor)} is not allowed",
                            "plain values; quote a text that begins with &")
        if event.tag is not None:
            self._notes.say(_at(event), f"tag {quoted(event.tag)} is not allowed",
                            "plain values; quote a text that begins with !")

    def _listing(self, mark: Any, depth: int) -> Listing:
        node = Listing(mark.line + 1, mark.column + 1)
        add = node.items.append
        while (event := self._next()).__class__ is not yaml.SequenceEndEvent:
            add(self._node(event, depth))
        return node

    def _table(self, mark: Any, depth: int) -> Table:
        node = Table(mark.line + 1, mark.column + 1)
        entries = node.entries
        last = ""
        while (event := self._next()).__class__ is not yaml.MappingEndEvent:
            key = self._node(event, depth)
            value = self._node(self._next(), depth)
            if key.__class__ is Scalar and key.text[:1] in _DIGITS and last in entries:
                before = entries[last]
                if _comma_split(before[1], key, value):
                    self._note_comma(before[1], last, key)
                    entries[last] = (before[0], Broken("", before[1].line, before[1].column))
                    continue
            if isinstance(key, Scalar) and self._usable(key, entries):
                last = key.text
                entries[last] = (key, value)
            elif not isinstance(key, Scalar):
                self._notes.say(key, "a key must be a text, not a list or a mapping")
        return node

    def _note_comma(self, at: Node, name: str, rest: Scalar) -> None:
        """Note a number that a comma has cut in two, inside braces."""
        whole = at.text if isinstance(at, Scalar) else ""
        what = f"{name}: {quoted(f'{whole},{rest.text}')} has a decimal comma"
        right = quoted(f"{whole}.{rest.text}")
        self._notes.say(at, f"{what}; decimals take a point; write {right}")

    def _usable(self, key: Scalar, entries: dict[str, tuple[Scalar, Node]]) -> bool:
        """Whether `key` may be a key here; what is wrong with it is noted."""
        if isinstance(key, Broken):
            return False
        if key.text in entries:
            first = entries[key.text][0].line
            what = f"duplicate key {quoted(key.text)}; it stands in line {first} already"
            self._notes.say(key, what, "each key once")
        elif key.text == "<<" and not key.quoted:
            self._notes.say(key, "merge key '<<' is not allowed", "write the fields out")
        elif key.text == "" or key.nothing():
            self._notes.say(key, "a key is missing before ':'")
        else:
            return True
        return False


def _comma_split(before: Node, key: Scalar, value: Node) -> bool:
    """Whether an entry is the tail of the number before it: `{length: 1,2 m}` in braces."""
    return (
        before.__class__ is Scalar
        and before.text.lstrip("+-").isdecimal()
        and isinstance(value, Scalar)
        and value.nothing()
        and not key.quoted
    )


def _at(event: Any) -> Scalar:
    mark = event.start_mark
    return Scalar("", mark.line + 1, mark.column + 1)
