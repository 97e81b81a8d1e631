"""The reader of one file: its problems and what is known so far.

`scalars`, `rows` and `lookups` read values, `records` mappings by their table; the sections
(`parts`, `things`, `circuits`, `conditions`) make the model's objects.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple, Protocol

from catalogue.parts import Part
from coordination.model import Place
from coordination.reading.fields import Field
from coordination.reading.nodes import Broken, Listing, Node, Scalar, Table
from coordination.reading.notes import Notes, name_problem
from coordination.reading.references import References
from coordination.reading.text import in_words, quoted


class Catalogue(Protocol):
    """What reading needs of a parts catalogue."""

    def get(self, part_id: str, /) -> Part | None:
        """The part of that id, or None."""

    def near(self, part_id: str, kind: str, /) -> str | None:
        """The id of that kind most like `part_id`, if one is near."""


#: Field paths to the text written there.
Written = dict[str, str]


class Slot(NamedTuple):
    """What a value is read for: its field, its path ("resistance.min"), where its text goes."""

    field: Field
    path: str
    written: Written

    @property
    def shown(self) -> str:
        """The path as messages say it."""
        return in_words(self.path)

    def inner(self, name: str, field: Field) -> Slot:
        """The slot of a value inside this one."""
        return Slot(field, f"{self.path}.{name}", self.written)


class Reader:
    """One file being read.

    notes      -- every problem so far
    references -- names to be checked once all of the file is read
    parts      -- one-off parts by id; `spoilt` ids are those that could not be read
    order_at   -- where each busbar states its order
    found      -- what the catalogue answered
    """

    def __init__(self, notes: Notes, catalogue: Catalogue) -> None:
        self.notes, self.catalogue = notes, catalogue
        self.references = References()
        self.places: dict[str, Place] = {}
        self.parts: dict[str, Part] = {}
        self.spoilt: set[str] = set()
        self.order_at: dict[str, Node] = {}
        self.found: dict[str, Part | None] = {}

    def entries(self, node: Node) -> dict[str, tuple[Scalar, Node]] | None:
        """The entries of a mapping; {} if nothing is written, None (noted) if it is none."""
        if node.__class__ is Table:
            return node.entries
        if isinstance(node, Scalar) and node.nothing():
            return None if isinstance(node, Broken) else {}
        what = quoted(node.text) if isinstance(node, Scalar) else "a list"
        self.notes.say(node, f"{what} stands where fields are expected", "{key: value, ...}")
        return None

    def items(self, node: Node, path: str, of: str) -> Sequence[Node]:
        """The items of a list (none if nothing is written); a problem is noted if it is no list."""
        if isinstance(node, Listing):
            return node.items
        if not (isinstance(node, Scalar) and node.nothing()):
            self.notes.say(node, f"{path} wants a list", f"[{of}, {of}, ...]")
        return ()

    def named(self, node: Node, kind: str) -> Iterator[tuple[str, Scalar, Node]]:
        """The entries of a section whose keys are names: (name, key, value)."""
        for name, (key, value) in (self.entries(node) or {}).items():
            if problem := name_problem(name):
                self.notes.say(key, problem)
                continue
            if kind:
                self.references.declare(name, kind, key)
            yield name, key, value
