"""The section `circuits:`: chains of elements, with the junctions between them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from coordination.model import Circuit, Element, Place, Return
from coordination.reading.lookups import DEFAULT_PLACE
from coordination.reading.nodes import Broken, Listing, Node, Scalar, Table
from coordination.reading.notes import name_problem
from coordination.reading.reader import Reader, Written
from coordination.reading.records import read_record
from coordination.reading.references import ELEMENT_KINDS, UNCLEAR
from coordination.reading.system_fields import CIRCUIT, ELEMENTS, RETURN
from coordination.reading.text import quoted

_MIRROR = Return()


def read_circuits(reader: Reader, node: Node) -> dict[str, Circuit]:
    """`circuits:` by name."""
    found: dict[str, Circuit] = {}
    for name, key, value in reader.named(node, "circuit"):
        values = read_record(reader, key, value, CIRCUIT, {})
        start, end = values.get("from", ""), values.get("to", "")
        _check_ends(reader, key, value, start, end)
        nodes = _nodes(reader, key, values)
        elements = read_elements(
            reader, name, nodes, (start, end), values.get("place", DEFAULT_PLACE)
        )
        found[name] = Circuit(name=name, line=key.line, start=start, end=end, elements=elements)
    return found


def _nodes(reader: Reader, key: Scalar, values: dict[str, Any]) -> Sequence[Node]:
    """The nodes of a circuit's elements; an empty list is noted."""
    if "parts" not in values:
        return ()
    node = values["parts"]
    if not isinstance(node, Scalar | Listing) or (isinstance(node, Scalar) and not node.nothing()):
        return reader.items(node, "parts", "{kind: id, ...}")
    items = reader.items(node, "parts", "{kind: id, ...}")
    if not items:
        reader.notes.say(key, f"circuit {quoted(key.text)} has no parts", "a list of elements")
    return items


def _check_ends(reader: Reader, key: Scalar, node: Node, start: str, end: str) -> None:
    """A circuit leads from one point to another, neither of them its own."""
    entries = reader.entries(node) or {}
    name = quoted(key.text)
    if start and start == end:
        what = f"circuit {name} leads from {quoted(start)} back to it"
        reader.notes.say(entries["to"][1], what, "two different points")
    for which, point in (("from", start), ("to", end)):
        if point.startswith(key.text + "@"):
            what = f"circuit {name} cannot begin or end at a junction of its own"
            reader.notes.say(entries[which][1], what, "a point outside the circuit")


def read_elements(
    reader: Reader, circuit: str, nodes: Sequence[Node], ends: tuple[str, str], place: Place
) -> tuple[Element, ...]:
    """The elements of a circuit; element n lies between the junctions n - 1 and n."""
    found: list[Element] = []
    start, last = ends[0], len(nodes)
    for number, node in enumerate(nodes, start=1):
        end = ends[1] if number == last else f"{circuit}@{number}"
        if number < last:
            reader.references.declare(end, "junction", node)
        element = _read_element(reader, node, (circuit, number, start, end), place)
        if element is not None:
            found.append(element)
        start = end
    return tuple(found)


def _read_element(
    reader: Reader, node: Node, where: tuple[str, int, str, str], place: Place
) -> Element | None:
    circuit, number, start, end = where
    kind = _kind(reader, node)
    if not kind:
        _declare_unclear(reader, node, f"{circuit}/{number}")
        return None
    written: Written = {}
    values = read_record(reader, node, node, ELEMENTS[kind], written)
    values["part"] = values.pop(kind, None)
    name = _name(reader, node, kind, values.pop("name", f"{circuit}/{number}"))
    values.setdefault("place", place)
    return Element(
        name=name, line=node.line, written=written, kind=kind, circuit=circuit, number=number,
        start=start, end=end, **_of_model(reader, kind, values, written),
    )


def _kind(reader: Reader, node: Node) -> str:
    """The element's kind: the one key among ELEMENT_KINDS; empty (and noted) if it is not one."""
    entries = reader.entries(node)
    if entries is None:
        return ""
    kinds = [key for key in entries if key in ELEMENTS]
    if len(kinds) == 1:
        return kinds[0]
    allowed = ", ".join(ELEMENT_KINDS)
    if kinds:
        what = f"one element cannot be {' and '.join(kinds)}"
        reader.notes.say(entries[kinds[1]][0], what, "one of " + allowed)
        return ""
    for key, (at, _) in entries.items():
        if near := reader.notes.nearest(key, ELEMENT_KINDS):
            reader.notes.say(at, f"unknown kind of part {quoted(key)}", "one of " + allowed, near)
            return ""
    reader.notes.say(node, "the element names no part", "one of " + allowed)
    return ""


def _declare_unclear(reader: Reader, node: Node, name: str) -> None:
    """Declare an element whose kind is unclear, so that uses of its name are not noted as well."""
    entries = node.entries if isinstance(node, Table) else {}
    own = entries["name"][1] if "name" in entries else None
    reader.references.declare(own.text if isinstance(own, Scalar) else name, UNCLEAR, node)


def _name(reader: Reader, node: Node, kind: str, name: str) -> str:
    """The element's name, declared."""
    entries = reader.entries(node) or {}
    at = entries["name"][1] if "name" in entries else node
    if problem := name_problem(name):
        reader.notes.say(at, problem)
    else:
        reader.references.declare(name, kind, at)
    return name


def _of_model(
    reader: Reader, kind: str, values: dict[str, Any], written: Written
) -> dict[str, Any]:
    """The values under the names of the model's fields."""
    if kind == "cable":
        stated = values.pop("return", None)
        back = (read_return(reader, stated) if stated is not None else None) or _MIRROR
        if back.kind == "cable" and back.length is None:
            back = Return(kind="cable", part=back.part, length=values.get("length"), runs=back.runs,
                          line=back.line, written=back.written)
        values["return_path"] = back
    elif kind == "disconnect":
        values["normally_open"] = values.pop("normally", "closed") == "open"
    elif kind == "joint":
        band = values.pop("part")
        for key in [key for key in written if key.startswith("joint")]:
            written["resistance" + key.removeprefix("joint")] = written.pop(key)
        if band is not None:
            values["resistance_min"], values["resistance_max"] = band.min, band.max
    return values


def read_return(reader: Reader, node: Node) -> Return | None:
    """`none`, a chassis path with a resistance, or a cable of its own."""
    ways = "none, {resistance: ...}, or {cable: id, length: ..., runs: ...}"
    if not isinstance(node, Table):
        if isinstance(node, Scalar) and node.text == "none":
            return Return(kind="none", line=node.line)
        if not isinstance(node, Broken):
            what = quoted(node.text) if isinstance(node, Scalar) else "a list"
            reader.notes.say(node, f"return cannot be {what}", ways)
        return None
    written: Written = {}
    values = read_record(reader, node, node, RETURN, written)
    entries = node.entries
    if "resistance" in entries:
        for key in ("cable", "length", "runs"):
            if key in entries:
                what = f"{key} does not go with a stated resistance"
                reader.notes.say(entries[key][0], what, ways)
        kind = "path"
    elif "cable" in entries:
        kind = "cable"
        values["part"] = values.pop("cable", None)
    else:
        reader.notes.say(node, "return states neither a resistance nor a cable", ways)
        return None
    values.pop("cable", None)
    return Return(kind=kind, line=node.line, written=written, **values)
