"""Reads `house_rules.yaml` to entries; all that is wrong in it is told at once, with its place.

house_rules: Tern Yard
version: "3"
in_force: 2026-03-01
rules:
  class-t-on-lithium: {every: fuse, where: {directly_on: lithium battery}, family: class-t}
  no-thin-cable: {every: cable, area: ">= 2.5 mm²", severity: damage}
  interrupt-margin: {margin: {rule: fundamentals/interrupt-rating, at_least: 1.25}}
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Any, Final, NamedTuple, get_args

from coordination.errors import BadInput, Problem
from coordination.reading.fields import Field, FieldTable, choice, record, text
from coordination.reading.nodes import Broken, Node, Scalar, Table, tree
from coordination.reading.notes import Notes
from coordination.reading.reader import Reader, Slot, Written
from coordination.reading.records import SHAPES, read_record
from coordination.reading.text import decode, quoted, read_file
from coordination.rules.card import UNDATED, Severity
from coordination.rules.house.limits import Limit
from coordination.rules.house.values import read_limits, read_next_to
from coordination.rules.house.vocabulary import KINDS, words_for

_RULE_NAME = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


class Margin(NamedTuple):
    """Another rule's margin must be at least this [1]; `line`, `column` where it is named."""

    rule: str
    at_least: float
    written: str
    line: int
    column: int


class Entry(NamedTuple):
    """One house rule; `every` is empty where it is about another rule's margin."""

    name: str
    file: str
    line: int
    every: str
    where: tuple[Limit, ...]
    limits: tuple[Limit, ...]
    margin: Margin | None
    said: dict[str, str]


class HouseRules(NamedTuple):
    """What one or several files of house rules say; the head is that of the first."""

    title: str
    version: str
    in_force: str
    entries: tuple[Entry, ...]


_MARGIN: Final = record(
    {
        "rule": text("the rule, as pack/rule-name", required=True),
        "at_least": text("the least margin, as 1.25", required=True),
    },
    "another rule's margin must be at least this",
)
#: What an entry may say of itself, beside limits.
_OWN: Final = {
    "every": choice(KINDS, "what it is about"),
    "where": Field(shape="section", meaning="which of them: the same words, or directly_on"),
    "margin": _MARGIN,
    "title": text("what must hold, in a few words"),
    "why": text("the reason"),
    "wrong": text("what breaks it in practice"),
    "right": text("what cures it"),
    "severity": choice(get_args(Severity), "of a fail (default: paperwork)"),
}
_SAID = ("title", "why", "wrong", "right", "severity")
_TOP: Final = FieldTable(
    {
        "house_rules": text("whose rules they are", required=True),
        "version": text("their version (default: 1)"),
        "in_force": Field(shape="date", meaning="the day from which they hold"),
        "rules": Field(shape="section", meaning="the rules by name", required=True),
    }
)


def read_house_rules(paths: Sequence[str]) -> HouseRules:
    """The rules of all files together. Raises BadInput with every problem of all files."""
    heads: list[dict[str, Any]] = []
    entries: dict[str, Entry] = {}
    problems: list[Problem] = []
    for path in paths:
        notes = Notes(path)
        try:
            heads.append(_file(path, notes, entries))
            notes.raise_if_any()
        except BadInput as error:
            problems += error.problems
    if problems:
        raise BadInput(tuple(problems))
    head = heads[0]
    in_force = head.get("in_force", UNDATED)
    version = head.get("version", "1")
    return HouseRules(head["house_rules"], version, in_force, tuple(entries.values()))


def _file(path: str, notes: Notes, entries: dict[str, Entry]) -> dict[str, Any]:
    root = tree(decode(read_file(path), path), notes)
    reader = Reader(notes, _NoCatalogue())
    values = read_record(reader, root, root, _TOP, {})
    section = values.get("rules", Scalar("", 0, 0))
    if "rules" in values and not reader.entries(section):
        notes.say(section, "rules has no entries", "name: {every: ..., ...}")
    for name, key, node in reader.named(section, ""):
        if not _RULE_NAME.fullmatch(name):
            notes.say(key, f"rule name {quoted(name)} is not words-with-hyphens")
        elif name in entries:
            other = entries[name]
            what = f"a rule {quoted(name)} stands in {other.file}, line {other.line} already"
            notes.say(key, what, "each name once")
        elif entry := _entry(reader, name, key, node):
            entries[name] = entry
    return values


class _NoCatalogue:
    """House rules name no parts."""

    def get(self, _: str, /) -> None:
        return None

    def near(self, _: str, __: str, /) -> None:
        return None


def _entry(reader: Reader, name: str, key: Scalar, node: Node) -> Entry | None:
    if not isinstance(node, Table):
        if not isinstance(node, Broken):
            reader.notes.say(node, f"rule {quoted(name)} is no mapping", "{every: ..., ...}")
        return None
    written: Written = {}
    own = {
        word: SHAPES[field.shape](reader, node.entries[word][1], Slot(field, word, written))
        for word, field in _OWN.items()
        if word in node.entries
    }
    every = own.get("every") or ""
    rest = {word: entry for word, entry in node.entries.items() if word not in _OWN}
    margin = _margin(reader, node, own.get("margin"))
    if "margin" in own and rest:
        at = next(iter(rest.values()))[0]
        reader.notes.say(at, "margin stands alone: it is another rule's limit", "margin, or limits")
    elif "margin" not in own and "every" not in node.entries:
        reader.notes.say(key, "every is missing: what the rule is about", ", ".join(KINDS))
    elif "margin" not in own and not rest:
        known = ", ".join(words_for(every)) if every else ""
        reader.notes.say(key, f"rule {quoted(name)} limits nothing", known)
    if "margin" in own and "every" not in node.entries and "where" in node.entries:
        reader.notes.say(node.entries["where"][0], "where goes with every, which is missing")
    limits = tuple(_limits(reader, rest, every)) if every else ()
    where = tuple(_where(reader, own.get("where"), every)) if every else ()
    said = {word: own[word] for word in _SAID if own.get(word)}
    return Entry(name, reader.notes.file, key.line, every, where, limits, margin, said)


def _limits(reader: Reader, entries: dict[str, tuple[Scalar, Node]], every: str) -> Iterator[Limit]:
    words = words_for(every)
    for name, (key, node) in entries.items():
        if name not in words:
            allowed = (*_OWN, *words)
            what = f"nothing of a {every} is called {quoted(name)}"
            reader.notes.say(key, what, ", ".join(words), reader.notes.nearest(name, allowed))
        else:
            yield from read_limits(reader, name, words[name], node)


def _where(reader: Reader, node: Node | None, every: str) -> Iterator[Limit]:
    if node is None:
        return
    entries = dict(reader.entries(node) or {})
    if "directly_on" in entries:
        yield from read_next_to(reader, entries.pop("directly_on")[1], every)
    yield from _limits(reader, entries, every)


def _margin(reader: Reader, node: Table, stated: dict[str, Any] | None) -> Margin | None:
    if not stated or len(stated) < 2:
        return None
    at = (reader.entries(node.entries["margin"][1]) or {})["at_least"][1]
    try:
        least = float(stated["at_least"])
    except ValueError:
        least = 0.0
    if not 1.0 <= least <= 100.0:
        what = f"at_least cannot be {quoted(stated['at_least'])}"
        reader.notes.say(at, what, "a number from 1 to 100: 1.25")
        return None
    rule = (reader.entries(node.entries["margin"][1]) or {})["rule"][1]
    return Margin(stated["rule"], least, stated["at_least"], rule.line, rule.column)
