"""What rule packs add to a system file: their options, and fields of their own in its parts.

Reading knows no packs: whoever calls it says what the packs that the file names bring.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any, NamedTuple

from coordination.reading.fields import Field, FieldTable
from coordination.reading.nodes import Node, Table
from coordination.reading.reader import Reader, Written
from coordination.reading.records import read_record
from coordination.reading.text import quoted


class Vocabulary(NamedTuple):
    """The words of the packs in use.

    options     -- pack to option to field; `defaults` the values of those not stated
    part_fields -- kind of part to "pack.field" to field
    skipped     -- packs that the file names but that are not there: their words are passed over
    rules       -- "pack/rule" of every rule; empty: not known, so that none is looked up
    """

    options: Mapping[str, Mapping[str, Field]] = {}
    defaults: Mapping[str, Mapping[str, Any]] = {}
    part_fields: Mapping[str, Mapping[str, Field]] = {}
    skipped: frozenset[str] = frozenset()
    rules: frozenset[str] = frozenset()


NO_WORDS = Vocabulary()

#: The packs a file names to the words they bring.
Speak = Callable[[tuple[str, ...]], Vocabulary]


def read_options(
    reader: Reader, node: Node, words: Vocabulary, written: Written
) -> dict[str, dict[str, Any]]:
    """`options:` by pack, with defaults; a pack that is not in use is noted."""
    found = {pack: dict(words.defaults.get(pack, {})) for pack in words.options}
    for pack, (key, value) in (reader.entries(node) or {}).items():
        if pack in words.options:
            table = FieldTable(words.options[pack])
            stated = read_record(reader, key, value, table, written, f"options.{pack}.")
            found[pack] |= {name: _typed(each, table.fields[name]) for name, each in stated.items()}
        elif pack not in words.skipped:
            what = f"options for {quoted(pack)}: no such pack is in use, or it has no options"
            reader.notes.unknown(key, what, pack, words.options)
    return found


def _typed(value: Any, field: Field) -> Any:
    return date.fromisoformat(value) if field.shape == "date" else value


def known_entries(node: Node, words: Vocabulary) -> Node:
    """A part's mapping without the fields of packs that are not there."""
    if not words.skipped or not isinstance(node, Table):
        return node
    kept = Table(node.line, node.column)
    kept.entries = {
        key: entry
        for key, entry in node.entries.items()
        if "." not in key or key.partition(".")[0] not in words.skipped
    }
    return kept
