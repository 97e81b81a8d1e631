"""Changes written into the text of a system file, each in the place where it belongs."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Final, NamedTuple

import yaml

from coordination.model import Element, System
from coordination.suggest.change import Change, Changes, in_order
from coordination.suggest.document import CannotEdit, Document, flows, written


class Splice(NamedTuple):
    """Text that takes the place of what stands from `start` to `end`."""

    start: int
    end: int
    text: str


def edited_text(document: Document, system: System, changes: Changes) -> str:
    """The file's text with all of the changes. Raises CannotEdit: it is written in another way."""
    splices: list[Splice] = []
    for change in in_order(changes):
        splices += _HOW[change.sort](document, system, change)
    text = document.text
    order = sorted(enumerate(splices), key=lambda each: (each[1].start, each[1].end, each[0]))
    ordered = [splice for _, splice in order]
    for before, after in pairwise(ordered):
        if after.start < before.end:
            raise CannotEdit("two of the changes meet in one place of the text")
    for splice in reversed(ordered):
        text = text[: splice.start] + splice.text + text[splice.end :]
    return text


def _element(system: System, name: str) -> Element:
    return next(element for element in system.elements() if element.name == name)


def _node(document: Document, element: Element) -> yaml.Node:
    return document.find("circuits", element.circuit, "parts", element.number - 1)


def _value(document: Document, node: yaml.Node, field: str, text: str) -> Splice:
    """The text in place of a field's value; a field that is not stated is added."""
    value = document.step(node, field)
    if value is None:
        return _entry(document, node, f"{field}: {written(text)}")
    start, end = document.span(value)
    return Splice(start, end, written(text, getattr(value, "style", None)))


def _entry(document: Document, node: yaml.Node, entry: str) -> Splice:
    """One more entry of a mapping, behind its last."""
    if not isinstance(node, yaml.MappingNode):
        raise CannotEdit("it is not written as {key: value}")
    at = document.end_of(node.value[-1][1])
    if flows(node):
        return Splice(at, at, f", {entry}")
    line = document.line_end(at)
    indent = " " * node.value[0][0].start_mark.column
    return _line(document, line, f"{indent}{entry}")


def _line(document: Document, at: int, line: str) -> Splice:
    """A line of its own that begins at `at`, where a line begins or the text ends."""
    newline = document.newline
    if at == len(document.text) and not document.text.endswith(("\n", "\r")):
        return Splice(at, at, newline + line)
    return Splice(at, at, line + newline)


def _other_part(document: Document, system: System, change: Change) -> Iterator[Splice]:
    if change.subject in system.busbars:
        yield _value(document, document.find("busbars", change.subject), "part", change.part_id)
        return
    element = _element(system, change.subject)
    node = _node(document, element)
    yield _value(document, node, element.kind, change.part_id)
    if change.part is not None and change.part.kind != element.kind:
        key = document.key(node, element.kind)
        assert key is not None
        yield Splice(*document.span(key), change.part.kind)
        if document.key(node, "plus_towards") is not None:
            yield _without(document, node, "plus_towards")


def _without(document: Document, node: yaml.Node, field: str) -> Splice:
    """An entry taken out of a mapping in which it is not the first."""
    place = next(n for n, (key, _) in enumerate(node.value) if key.value == field)
    if place == 0:
        raise CannotEdit(f"{field} stands first in it")
    before, (key, value) = node.value[place - 1], node.value[place]
    if flows(node):
        return Splice(document.end_of(before[1]), document.end_of(value), "")
    start = document.line_start(document.at(key.start_mark))
    return Splice(start, document.line_end(document.end_of(value)), "")


def _other_cable(document: Document, system: System, change: Change) -> Iterator[Splice]:
    element = _element(system, change.subject)
    node = _node(document, element)
    yield _value(document, node, "cable", change.part_id)
    if element.return_path.kind == "cable":
        yield _value(document, document.find_in(node, "return"), "cable", change.part_id)


def _equal_return(document: Document, system: System, change: Change) -> Iterator[Splice]:
    element = _element(system, change.subject)
    back = document.find_in(_node(document, element), "return")
    if element.return_path.kind != "cable":
        start, end = document.at(back.start_mark), document.end_of(back)
        runs = f", runs: {element.runs}" if element.runs > 1 else ""
        yield Splice(start, end, f"{{cable: {written(change.part_id)}{runs}}}")
        return
    yield _value(document, back, "cable", change.part_id)
    if element.return_path.runs != element.runs:
        yield _value(document, back, "runs", str(element.runs))


def _other_length(document: Document, system: System, change: Change) -> Iterator[Splice]:
    yield _stated(document, system, change, "length")


def _other_distance(document: Document, system: System, change: Change) -> Iterator[Splice]:
    yield _stated(document, system, change, "distance")


def _stated(document: Document, system: System, change: Change, field: str) -> Splice:
    node = _node(document, _element(system, change.subject))
    return _value(document, node, field, change.text)


def _added(document: Document, _: System, change: Change) -> Iterator[Splice]:
    assert change.part is not None
    fields = [f"{change.part.kind}: {written(change.part_id)}", f"name: {written(change.name)}"]
    if change.text:
        fields.append(f"distance: {written(change.text)}")
    if change.place:
        fields.append(f"place: {written(change.place)}")
    yield _inserted(document, change.subject, change.index, "{" + ", ".join(fields) + "}")


def _inserted(document: Document, circuit: str, index: int, text: str) -> Splice:
    """An element among the parts of a circuit, before the one at that place."""
    parts = document.find("circuits", circuit, "parts")
    items = parts.value
    if flows(parts):
        if index < len(items):
            at = document.at(items[index].start_mark)
            return Splice(at, at, f"{text}, ")
        at = document.end_of(items[-1])
        return Splice(at, at, f", {text}")
    # Behind the line of the part before it: a comment above a part stays above that part.
    first = document.at(items[0].start_mark)
    if index:
        line = document.line_end(document.end_of(items[index - 1]))
    else:
        line = _after_key(document, circuit)
    return _line(document, line, _dash(document, first) + text)


def _after_key(document: Document, circuit: str) -> int:
    key = document.key(document.find("circuits", circuit), "parts")
    assert key is not None
    return document.line_end(document.at(key.start_mark))


def _dash(document: Document, first: int) -> str:
    """What stands before the first part of a list on its line."""
    before = document.text[document.line_start(first) : first]
    if before.strip() != "-":
        raise CannotEdit("its parts do not stand on lines of their own")
    return before


def _moved(document: Document, system: System, change: Change) -> Iterator[Splice]:
    element = _element(system, change.subject)
    parts = document.find("circuits", element.circuit, "parts")
    items, here = parts.value, element.number - 1
    if flows(parts):
        start, end = document.at(items[here].start_mark), document.end_of(items[here])
        text = document.text[start:end]
        if here + 1 < len(items):
            end = document.at(items[here + 1].start_mark)
        else:
            start = document.end_of(items[here - 1])
        yield Splice(start, end, "")
        yield _inserted(document, element.circuit, change.index, text)
        return
    _dash(document, document.at(items[here].start_mark))
    start = document.line_start(document.at(items[here].start_mark))
    end = document.line_end(document.end_of(items[here]))
    lines = document.text[start:end].rstrip("\r\n")
    dash = len(_dash(document, document.at(items[0].start_mark)))
    to = _inserted(document, element.circuit, change.index, "")
    yield Splice(start, end, "")
    yield Splice(to.start, to.end, _with_lines(to.text, lines, dash))


def _with_lines(empty: str, lines: str, dash: int) -> str:
    """The lines of an element in place of a line that holds a dash only."""
    start = len(empty) - len(empty.lstrip("\r\n"))
    return empty[:start] + lines + empty[start + dash :]


_HOW: Final[dict[str, Callable[[Document, System, Change], Iterator[Splice]]]] = {
    "part": _other_part,
    "cable": _other_cable,
    "return": _equal_return,
    "length": _other_length,
    "distance": _other_distance,
    "device": _added,
    "moved": _moved,
}
