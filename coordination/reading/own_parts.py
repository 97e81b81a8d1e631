"""The one-off parts of a system file, those that nothing in it uses too."""

from __future__ import annotations

from collections.abc import Mapping

from catalogue.parts import Part
from coordination.reading.nodes import Table, tree
from coordination.reading.notes import Notes
from coordination.reading.parts import read_parts
from coordination.reading.reader import Catalogue, Reader
from coordination.reading.text import decode
from coordination.reading.vocabulary import NO_WORDS, Vocabulary


def own_parts(
    data: bytes, file: str, catalogue: Catalogue, words: Vocabulary = NO_WORDS
) -> Mapping[str, Part]:
    """Id to part of everything under `parts:` of a file that was read without a problem.

    Raises BadInput for one that cannot be read.
    """
    notes = Notes(file)
    root = tree(decode(data, file), notes)
    reader = Reader(notes, catalogue)
    if isinstance(root, Table) and "parts" in root.entries:
        read_parts(reader, root.entries["parts"][1], words)
    notes.raise_if_any()
    return reader.parts
