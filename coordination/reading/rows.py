"""How bands, records, rows, curves and discharge limits of parts are read; see `scalars`."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from catalogue.layout import BETWEEN, RECORDS
from catalogue.records import Band, Curve, Discharge
from coordination.reading.fields import CURVE_POINT, Field, column_field, curve_fields
from coordination.reading.nodes import Listing, Node, Table
from coordination.reading.reader import Reader, Slot
from coordination.reading.scalars import read_choice, read_quantity
from coordination.reading.text import quoted

Point = tuple[float, float]


def read_band(reader: Reader, node: Node, slot: Slot) -> Band | None:
    """{min, max}, or one number for both."""
    path, written = slot.path, slot.written
    if not isinstance(node, Table):
        value = read_quantity(reader, node, slot)
        if value is None:
            return None
        written[path + ".min"] = written[path + ".max"] = written[path]
        return Band(value, value)
    values = _columns(reader, node, slot, {"min": slot.field, "max": slot.field})
    if values is None:
        return None
    if values[0] > values[1]:
        low, high = quoted(written[path + ".min"]), quoted(written[path + ".max"])
        reader.notes.say(node, f"{slot.shown}: min {low} is above max {high}", "min at most max")
        return None
    return Band(*values)


def _known(
    reader: Reader, node: Node, slot: Slot, keys: Mapping[str, Any]
) -> dict[str, Node] | None:
    """The entries of a mapping under the keys it may have; others are noted. None: no mapping."""
    entries = reader.entries(node)
    if entries is None:
        return None
    for key, (at, _) in entries.items():
        if key not in keys:
            near = reader.notes.nearest(key, keys)
            what = f"unknown key {quoted(key)} in {slot.shown}"
            reader.notes.say(at, what, ", ".join(keys), near)
    return {key: value for key, (_, value) in entries.items() if key in keys}


def _columns(
    reader: Reader, node: Node, slot: Slot, columns: Mapping[str, Field]
) -> list[float] | None:
    """The quantities of a mapping that must have all of `columns`, in their order."""
    entries = _known(reader, node, slot, columns)
    if entries is None:
        return None
    values: list[float] = []
    for name, field in columns.items():
        if name not in entries:
            reader.notes.say(node, f"{slot.shown} lacks {name}", ", ".join(columns))
            continue
        value = read_quantity(reader, entries[name], slot.inner(name, field))
        if value is not None:
            values.append(value)
    return values if len(values) == len(columns) else None


def read_mapping(reader: Reader, node: Node, slot: Slot) -> Any:
    """A record of quantities: a current for a time, a breaking rating, an interrupt rating."""
    pairs = slot.field.columns
    values = _columns(reader, node, slot, {name: column_field(name, of) for name, of in pairs})
    return None if values is None else RECORDS[pairs[0][0], pairs[1][0]](*values)


def read_mappings(reader: Reader, node: Node, slot: Slot) -> tuple[Any, ...] | None:
    """A list of such records."""
    example = "{" + ", ".join(f"{name}: ..." for name, _ in slot.field.columns) + "}"
    items = reader.items(node, slot.path, example)
    rows = [
        read_mapping(reader, item, slot.inner(str(number), slot.field))
        for number, item in enumerate(items)
    ]
    return None if None in rows else tuple(rows)


def read_pairs(reader: Reader, node: Node, slot: Slot) -> tuple[Point, ...] | None:
    """A list of [a, b] pairs, such as derating or the points of a curve."""
    (first, _), (second, _) = slot.field.columns
    items = reader.items(node, slot.path, f"[{first}, {second}]")
    fields = [(name, column_field(name, dimension)) for name, dimension in slot.field.columns]
    points: list[Point] = []
    for number, item in enumerate(items):
        if not isinstance(item, Listing) or len(item.items) != 2:
            reader.notes.say(item, f"{slot.shown} wants pairs", f"[{first}, {second}]")
            continue
        pair = [
            read_quantity(reader, cell, slot.inner(f"{number}.{name}", field))
            for cell, (name, field) in zip(item.items, fields, strict=True)
        ]
        if pair[0] is not None and pair[1] is not None:
            points.append((pair[0], pair[1]))
    return tuple(points) if len(points) == len(items) else None


def read_curve(reader: Reader, node: Node, slot: Slot) -> Curve | None:
    """The two boundaries of a time-current band, each a list of [current, time]."""
    columns = dict(slot.field.columns)
    entries = _known(reader, node, slot, curve_fields(slot.field))
    if entries is None:
        return None
    found: dict[str, Any] = {}
    for key, field in curve_fields(slot.field).items():
        if key in entries:
            inner = slot.inner(key, field)
            value = CURVE_SHAPES[field.shape](reader, entries[key], inner)
            if value is not None and value != ():
                found[columns.get(key, key)] = value
    if "tolerance" in entries and "tolerance" not in found:
        return None
    gates = found.pop("between", BETWEEN[0]) == BETWEEN[1]
    return Curve(**found, gates=gates) if found else None


#: Shape of what a curve states -> what reads it.
CURVE_SHAPES: Final[Mapping[str, Callable[[Reader, Node, Slot], Any]]] = {
    "pairs": read_pairs,
    "quantity": read_quantity,
    "choice": read_choice,
}


def read_discharge(reader: Reader, node: Node, slot: Slot) -> Discharge | None:
    """What a battery may deliver: {continuous: A, peak: {current, time}}, either or both."""
    fields = {
        "continuous": column_field("continuous", "current"),
        "peak": Field(shape="mapping", meaning="for a time", columns=CURVE_POINT),
    }
    entries = _known(reader, node, slot, fields)
    if entries is None:
        return None
    readers = {"continuous": read_quantity, "peak": read_mapping}
    return Discharge(
        **{key: readers[key](reader, value, slot.inner(key, fields[key]))
           for key, value in entries.items()}
    )
