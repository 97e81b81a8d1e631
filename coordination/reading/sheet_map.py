"""Reads the map of a sheet: which of its headings is which field of a part, with places.

    columns:
      Part no.: id
      Amps: rated_current [A]
      kA at 32 V: {field: interrupt_ratings, unit: kA, at: 32 V}
    constant: {kind: fuse, status: draft}
    ignore: [Price]
    sheet: Fuses            # of a workbook
    heading: 3              # the row that names the columns
"""

from __future__ import annotations

from typing import Final

from catalogue.parts import KINDS
from catalogue.quantities import QuantityError, parse
from catalogue.sheets.heading import plain_name, target_of, unit_problem
from catalogue.sheets.leaves import known_columns
from catalogue.sheets.mapping import SheetMap, Target
from coordination.reading.nodes import Broken, Listing, Node, Scalar, Table, tree
from coordination.reading.notes import Notes
from coordination.reading.text import decode, quoted, read_file

_KEYS: Final = ("columns", "constant", "ignore", "sheet", "heading")
_TARGET: Final = ("field", "unit", "at")
_ALLOWED: Final = "Amps: rated_current [A], or Amps: {field: rated_current, unit: A}"


def read_sheet_map(path: str) -> SheetMap:
    """The map in the file at `path`. Raises BadInput with everything that is wrong in it."""
    notes = Notes(path)
    found = _map(tree(decode(read_file(path), path), notes), notes)
    notes.raise_if_any()
    return found


def _map(root: Node, notes: Notes) -> SheetMap:
    if not isinstance(root, Table):
        notes.say(root, "a map is no list and no text", ", ".join(_KEYS))
        return SheetMap()
    for name, (key, _) in root.entries.items():
        if name not in _KEYS:
            notes.unknown(key, f"{quoted(name)} is no section of a map", name, _KEYS)
    if "columns" not in root.entries:
        notes.say(root, "there is no section 'columns'", _ALLOWED)
    parts = {name: value for name, (_, value) in root.entries.items()}
    columns = _columns(parts.get("columns"), notes)
    constant = _constant(parts.get("constant"), columns, notes)
    return SheetMap(
        columns,
        constant,
        _ignore(parts.get("ignore"), columns, notes),
        _text(parts.get("sheet"), "sheet", notes),
        _heading(parts.get("heading"), notes),
    )


def _columns(node: Node | None, notes: Notes) -> dict[str, Target]:
    found: dict[str, Target] = {}
    taken: dict[tuple[str, str], str] = {}
    for heading, (key, value) in _entries(node, "columns", notes).items():
        target = _target(value, notes)
        if target is None:
            continue
        where = (target.column, target.at)
        if where in taken:
            what = f"{target.column} is mapped twice: {quoted(taken[where])} is it already"
            notes.say(key, what, "each field once")
            continue
        taken[where] = heading
        found[heading.strip()] = target._replace(line=key.line, place=key.column)
    return found


def _target(node: Node, notes: Notes) -> Target | None:
    """What a heading means; None after noting why that cannot be."""
    if isinstance(node, Broken):
        return None
    if isinstance(node, Scalar):
        return _field(node, "", "", node, notes)
    if not isinstance(node, Table):
        notes.say(node, "a list means no field", _ALLOWED)
        return None
    for name, (key, _) in node.entries.items():
        if name not in _TARGET:
            notes.unknown(key, f"{quoted(name)} is not known here", name, _TARGET)
    if "field" not in node.entries:
        notes.say(node, "the field is missing", _ALLOWED)
        return None
    texts = {name: _text(value, name, notes) for name, (_, value) in node.entries.items()}
    field = node.entries["field"][1]
    if not isinstance(field, Scalar):
        return None
    return _field(field, texts.get("unit", ""), texts.get("at", ""), node, notes)


def _field(stated: Scalar, unit: str, at: str, node: Node, notes: Notes) -> Target | None:
    target = target_of(stated.text)
    if isinstance(target, str):
        names = ("id", "kind", *known_columns())
        near = notes.nearest(plain_name(stated.text), names)
        allowed = "" if near else "a field of a part, as `fusewright parts export` names it"
        notes.say(stated, f"{quoted(stated.text)} is no field of a part", allowed, near)
        return None
    if unit:
        target = target._replace(unit=unit)
    if at:
        target = target._replace(at=at)
        if not _fits_voltage(target, node, notes):
            return None
    if target.unit and (problem := unit_problem(target.column, target.unit)):
        notes.say(node, problem[0], problem[1])
        return None
    return target


def _fits_voltage(target: Target, node: Node, notes: Notes) -> bool:
    """Whether `at` is a voltage, of a column of interrupt ratings; what it is not is noted."""
    if target.column != "interrupt_ratings":
        notes.say(node, f"`at` belongs to interrupt_ratings, not to {target.column}")
        return False
    try:
        parse(target.at, "voltage")
    except QuantityError as error:
        notes.say(node, f"at: {error.message}", error.hint)
        return False
    return True


def _constant(node: Node | None, columns: dict[str, Target], notes: Notes) -> dict[str, str]:
    found: dict[str, str] = {}
    mapped = {target.column for target in columns.values()}
    known = [name for name in known_columns() if "." not in name or name.startswith("discharge")]
    for name, (key, value) in _entries(node, "constant", notes).items():
        text = _text(value, name, notes)
        if name == "id":
            notes.say(key, "an id cannot be the same for every row", "map a heading to id")
        elif name != "kind" and name not in known:
            notes.unknown(key, f"{quoted(name)} is no field of a part", name, [*known, "kind"])
        elif name in mapped:
            notes.say(key, f"{name} has a column already", "one of the two")
        elif name == "kind" and text not in KINDS:
            notes.unknown(value, f"{quoted(text)} is no kind of part", text, KINDS)
        elif text:
            found[name] = text
    return found


def _ignore(
    node: Node | None, columns: dict[str, Target], notes: Notes
) -> dict[str, tuple[int, int]]:
    if node is None or isinstance(node, Broken):
        return {}
    if not isinstance(node, Listing):
        notes.say(node, "ignore wants a list of headings", "ignore: [Price, Stock]")
        return {}
    found = {}
    for item in node.items:
        text = _text(item, "ignore", notes)
        if text.strip() in columns:
            notes.say(item, f"{quoted(text)} is mapped, and left aside as well", "one of the two")
        elif text:
            found[text.strip()] = (item.line, item.column)
    return found


def _heading(node: Node | None, notes: Notes) -> int:
    text = _text(node, "heading", notes) if node is not None else "1"
    if text.isascii() and text.isdigit() and 1 <= int(text[:6]) <= 1000:
        return int(text)
    if node is not None and text:
        notes.say(node, f"heading wants the number of a row, not {quoted(text)}", "1 to 1000")
    return 1


def _entries(node: Node | None, name: str, notes: Notes) -> dict[str, tuple[Scalar, Node]]:
    if node is None or isinstance(node, Broken):
        return {}
    if not isinstance(node, Table):
        notes.say(node, f"{name} wants `heading: field` pairs", _ALLOWED)
        return {}
    return node.entries


def _text(node: Node | None, name: str, notes: Notes) -> str:
    if node is None or isinstance(node, Broken):
        return ""
    if not isinstance(node, Scalar) or not node.text.strip():
        notes.say(node, f"{name} wants a text")
        return ""
    return node.text
