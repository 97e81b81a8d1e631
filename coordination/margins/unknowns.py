"""What is not known: which one datum would settle the most of what is unproven.

A finding names all it lacks as phrases "who: what"; phrases that differ only in the value at which
a datum is wanted are one datum.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from coordination.margins.probe import Pair

if TYPE_CHECKING:
    from coordination.rules.finding import Finding

#: What in a phrase begins to tell at which value the datum is wanted.
_WHERE = (" at ", " >= ", " for >= ")


class Key(NamedTuple):
    """A part or thing, and the field that it does not state; `who` is empty for what is no field.

    >>> key_of("fuse-t-300: interrupt_ratings at >= 28.8 V")
    Key(who='fuse-t-300', field='interrupt_ratings')
    """

    who: str
    field: str

    @property
    def words(self) -> str:
        """Both, as people write them."""
        return f"{self.who}: {self.field}" if self.who else self.field


class Datum(NamedTuple):
    """A missing datum with the findings that wait for it.

    phrases -- as findings name it
    alone   -- findings that lack nothing else; others -- those that lack more besides
    """

    key: Key
    phrases: tuple[str, ...]
    alone: tuple[Pair, ...]
    others: tuple[Pair, ...]


class Together(NamedTuple):
    """Several data that settle findings only together."""

    keys: tuple[Key, ...]
    pairs: tuple[Pair, ...]


def key_of(phrase: str) -> Key:
    """The datum that a phrase names."""
    who, colon, what = phrase.partition(": ")
    if not colon or who == "rule crashed":
        return Key("", phrase)
    ends = [at for word in _WHERE if (at := what.find(word)) > 0]
    return Key(who, what[: min(ends)] if ends else what)


def missing_data(findings: Iterable[Finding]) -> tuple[Datum, ...]:
    """Every missing datum: what settles most by itself first, then what most wait for."""
    phrases: dict[Key, dict[str, None]] = {}
    alone: dict[Key, list[Pair]] = {}
    others: dict[Key, list[Pair]] = {}
    for each in findings:
        if each.verdict != "unproven":
            continue
        keys = {key_of(phrase): None for phrase in each.missing}
        for phrase in each.missing:
            phrases.setdefault(key_of(phrase), {})[phrase] = None
        for key in keys:
            waiting = alone if len(keys) == 1 else others
            waiting.setdefault(key, []).append((each.rule, each.subject))
    data = [
        Datum(key, tuple(said), tuple(alone.get(key, ())), tuple(others.get(key, ())))
        for key, said in phrases.items()
    ]
    return tuple(sorted(data, key=lambda each: (-len(each.alone), -len(each.others), each.key)))


def only_together(findings: Iterable[Finding]) -> tuple[Together, ...]:
    """Sets of data that findings lack together, those that settle most first.

    A set counts every finding that lacks nothing outside it.
    """
    lacks = {
        (each.rule, each.subject): frozenset(map(key_of, each.missing))
        for each in findings
        if each.verdict == "unproven"
    }
    sets = Counter(keys for keys in lacks.values() if len(keys) > 1)
    found = [
        Together(tuple(sorted(keys)), tuple(pair for pair, own in lacks.items() if own <= keys))
        for keys in sets
    ]
    return tuple(sorted(found, key=lambda each: (-len(each.pairs), len(each.keys), each.keys)))
