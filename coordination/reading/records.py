"""How a mapping is read by its table of fields."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from coordination.reading.fields import FieldTable, part_table
from coordination.reading.lookups import read_part, read_place
from coordination.reading.nodes import Node, Scalar
from coordination.reading.notes import Placed
from coordination.reading.reader import Reader, Slot, Written
from coordination.reading.rows import (
    read_band,
    read_curve,
    read_discharge,
    read_mapping,
    read_mappings,
    read_pairs,
)
from coordination.reading.scalars import (
    read_choice,
    read_date,
    read_flag,
    read_name,
    read_names,
    read_quantity,
    read_text,
    read_texts,
    read_whole,
)
from coordination.reading.text import quoted


def read_record(
    reader: Reader, at: Placed, node: Node, table: FieldTable, written: Written, prefix: str = ""
) -> dict[str, Any]:
    """The values of a mapping by its table; whatever is wrong is noted and left out.

    at -- where to point for a missing field: the key that the mapping stands under
    """
    values: dict[str, Any] = {}
    entries = reader.entries(node)
    if entries is None:
        return values
    known = table.fields
    for key, (key_node, value_node) in entries.items():
        field = known.get(key)
        if field is None:
            _note_unknown(reader, key_node, key, table)
            continue
        value = SHAPES[field.shape](reader, value_node, Slot(field, prefix + key, written))
        if value is not None:
            values[key] = value
    for key in table.required:
        if key not in entries:
            reader.notes.say(at, f"{prefix}{key} is missing: {known[key].meaning}")
    return values


def _read_nested(reader: Reader, node: Node, slot: Slot) -> dict[str, Any] | None:
    """A mapping with a table of its own."""
    table = slot.field.table
    if table is None:
        return None
    return read_record(reader, node, node, table, slot.written, slot.path + ".")


def _note_unknown(reader: Reader, at: Scalar, key: str, table: FieldTable) -> None:
    """Note a key that the table lacks; a part's own field gets the reason why it is refused."""
    if table.part_kind and key in part_table(table.part_kind).fields:
        what = f"{quoted(key)} cannot be set here: ratings come from parts"
        allowed = f"a part of its own under parts:, with kind: {table.part_kind}"
        reader.notes.say(at, what, allowed)
        return
    near = reader.notes.nearest(key, table.fields)
    reader.notes.say(at, f"unknown key {quoted(key)}", ", ".join(table.fields), near)


def _keep(_: Reader, node: Node, __: Slot) -> Node:
    """The node itself, for the section to read."""
    return node


#: Shape of a field -> what reads it.
SHAPES: Final[Mapping[str, Callable[[Reader, Node, Slot], Any]]] = {
    "quantity": read_quantity,
    "band": read_band,
    "mappings": read_mappings,
    "pairs": read_pairs,
    "mapping": read_mapping,
    "curve": read_curve,
    "discharge": read_discharge,
    "text": read_text,
    "choice": read_choice,
    "flag": read_flag,
    "whole": read_whole,
    "date": read_date,
    "name": read_name,
    "names": read_names,
    "place": read_place,
    "part": read_part,
    "record": _read_nested,
    "elements": _keep,
    "return": _keep,
    "shares": _keep,
    "section": _keep,
    "texts": read_texts,
}
