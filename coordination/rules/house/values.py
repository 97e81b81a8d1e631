"""The values of a house rule's words: ">= 2.5 mm²", "class-t", [class-t, class-j], yes."""

from __future__ import annotations

import re
from collections.abc import Iterator

from catalogue.quantities import QuantityError, parse
from coordination.reading.nodes import Broken, Listing, Node, Scalar
from coordination.reading.reader import Reader
from coordination.reading.text import quoted
from coordination.rules.house.limits import (
    NEIGHBOURS,
    Limit,
    NextTo,
    QuantityLimit,
    WordLimit,
)
from coordination.rules.house.vocabulary import Word
from coordination.trace import Source, given

_LIMIT = re.compile(r"\s*(>=|<=|≥|≤)\s*(.+)", re.DOTALL)
_RELATIONS = {"≥": ">=", "≤": "<="}
_EXAMPLES = {
    "number": ">= 2",
    "factor": "<= 80 %",
    "temperature": "<= 60 °C",
    "area": ">= 2.5 mm²",
    "charge": "<= 600 Ah",
}
_FLAGS = {"yes": True, "true": True, "no": False, "false": False}
#: What can lie directly on a battery or a bar: it has two ends.
_WITH_ENDS = ("fuse", "breaker", "device", "disconnect", "channel", "cable")


def read_limits(reader: Reader, name: str, word: Word, node: Node) -> Iterator[Limit]:
    """The limits under a word; of a quantity each its own, of a text all together."""
    texts = list(_texts(reader, name, node))
    if word.shape == "quantity":
        for each in texts:
            if limit := _quantity(reader, name, word, each):
                yield limit
        return
    allowed = [_allowed(reader, name, word, each) for each in texts]
    if allowed and None not in allowed:
        yield WordLimit(name, word, tuple(each for each in allowed if each is not None))


def _texts(reader: Reader, name: str, node: Node) -> Iterator[Scalar]:
    items = node.items if isinstance(node, Listing) else [node]
    if not items:
        reader.notes.say(node, f"{name} has no value")
    for item in items:
        if not isinstance(item, Scalar):
            reader.notes.say(item, f"{name} cannot be a mapping or a list of lists")
        elif item.nothing() and not isinstance(item, Broken):
            reader.notes.say(item, f"{name} has no value")
        elif not isinstance(item, Broken):
            yield item


def _quantity(reader: Reader, name: str, word: Word, node: Scalar) -> Limit | None:
    match = _LIMIT.fullmatch(node.text)
    example = _EXAMPLES.get(word.dimension, f"<= 5 {word.unit}")
    if match is None:
        what = f"{name}: {quoted(node.text)} is no limit"
        reader.notes.say(node, what, f'">= ..." or "<= ...", as "{example}"')
        return None
    relation, written = _RELATIONS.get(match[1], match[1]), match[2].strip()
    try:
        value = _number(written) if word.dimension == "number" else parse(written, word.dimension)
    except QuantityError as error:
        hint = f"; {error.hint}" if error.hint else ""
        reader.notes.say(node, f"{name}: {error.message}{hint}", f'as "{example}"')
        return None
    source = Source("house rules", f"{reader.notes.file}, line {node.line}")
    limit = given(f"limit of {name}", "limit", value, word.unit, source, written)
    return QuantityLimit(name, word, relation, limit)


def _number(written: str) -> float:
    if not (written.isascii() and written.isdigit()):
        raise QuantityError(f"{written[:40]!r} is no whole number")
    return float(written)


def _allowed(reader: Reader, name: str, word: Word, node: Scalar) -> str | bool | None:
    known = tuple(_FLAGS) if word.shape == "flag" else word.choices
    text = node.text.casefold()
    if known and text not in known:
        what = f"{name} cannot be {quoted(node.text)}"
        allowed = ("yes", "no") if word.shape == "flag" else known
        reader.notes.say(node, what, ", ".join(allowed), reader.notes.nearest(text, allowed))
        return None
    return _FLAGS[text] if word.shape == "flag" else text


def read_next_to(reader: Reader, node: Node, every: str) -> Iterator[Limit]:
    """`directly_on`: a battery of some kind, or a busbar."""
    known = (*NEIGHBOURS, "busbar")
    if every not in _WITH_ENDS:
        allowed = ", ".join(_WITH_ENDS)
        reader.notes.say(node, f"directly_on is for what has two ends, not for a {every}", allowed)
        return
    for item in _texts(reader, "directly_on", node):
        if item.text in known:
            yield NextTo(item.text)
        else:
            what = f"directly_on cannot be {quoted(item.text)}"
            near = reader.notes.nearest(item.text, known)
            reader.notes.say(item, what, ", ".join(known), near)
