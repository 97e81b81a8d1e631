"""What a pack's cards, rules and words must be like; the first thing wrong refuses the pack."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import fields
from types import CodeType
from typing import Any, get_args

from coordination.ampacity import AmpacityBasis
from coordination.rules.card import Basis, Card, PackCard, Severity
from coordination.rules.hookcheck import place_of
from coordination.rules.pack import Pack
from coordination.rules.refused import PackRefusedError, titled
from coordination.rules.rule import Rule
from coordination.rules.words import Option, PartField, Shape, StandardRatings

#: The judge's own finding about a pack; no rule may bear its name.
SCOPE = "scope"

_RULE_NAME = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_WORD = re.compile(r"[a-z][a-z0-9]*(_[a-z0-9]+)*")
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
#: Fields of cards that may be empty.
_MAY_BE_EMPTY = ("basis", "scope_test")


def is_word(name: str) -> bool:
    """Whether it is words_with_underscores, as packs, options and fields are named."""
    return _WORD.fullmatch(name) is not None


def cards(name: str, given: Any, where: str, api: int) -> tuple[PackCard, ...]:
    """The pack's cards by rising date of force. Raises PackRefusedError."""
    found = (given,) if isinstance(given, PackCard) else given
    if not isinstance(found, (tuple, list)) or not found:
        raise PackRefusedError(f"{titled(name, where=where)} gives no PackCard as its card")
    for card in found:
        if not isinstance(card, PackCard):
            raise PackRefusedError(f"{titled(name, where=where)} gives a card that is no PackCard")
        _check_card(name, card, where, api)
    editions = Counter(card.edition for card in found)
    for edition, count in editions.items():
        if count > 1:
            title = titled(name, found[0].version, where)
            raise PackRefusedError(f"{title} has two cards of edition {edition!r}")
    return tuple(sorted(found, key=lambda card: (card.in_force, card.edition)))


def _check_card(name: str, card: PackCard, where: str, api: int) -> None:
    title = titled(name, str(card.version), where)
    if card.api != api:
        raise PackRefusedError(
            f"{title} was written for version {card.api} of the pack door, "
            f"this Fusewright has version {api}"
        )
    if card.name != name:
        raise PackRefusedError(f"{title} calls itself {card.name!r} on its card")
    if empty := _empty_fields(card):
        raise PackRefusedError(f"{title}: its card leaves empty: {', '.join(empty)}")
    if isinstance(card.not_covered, str) or not _all_texts(card.not_covered):
        raise PackRefusedError(f"{title}: not_covered on its card is no tuple of texts")
    if not _DATE.fullmatch(card.in_force):
        raise PackRefusedError(f"{title}: in_force {card.in_force!r} is no date YYYY-MM-DD")
    if "@" in card.edition:
        raise PackRefusedError(f"{title}: an edition cannot hold @: {card.edition!r}")
    if card.status not in get_args(Basis):
        raise PackRefusedError(f"{title}: no status {card.status!r}: {_listed(Basis)}")


def contents(pack: Pack) -> None:
    """Raises PackRefusedError for anything of the pack that is not what it should be."""
    title = titled(pack.card.name, pack.card.version)
    _check_rules(pack)
    _all_are(AmpacityBasis, pack.bases, title, "an ampacity basis")
    _all_are(Option, pack.options, title, "an option")
    _all_are(PartField, pack.part_fields, title, "a part field")
    _all_are(StandardRatings, pack.ratings, title, "standard ratings")
    _once(title, "option", (each.name for each in pack.options))
    _once(title, "part field", (f"{each.kind} {each.name}" for each in pack.part_fields))
    words: tuple[Option | PartField, ...] = (*pack.options, *pack.part_fields)
    for word in words:
        _check_word(title, word)
    for ratings in pack.ratings:
        _check_ratings(title, ratings)
    if not pack.rules and not pack.bases:
        raise PackRefusedError(f"{title} has neither a rule nor an ampacity basis")


def _check_rules(pack: Pack) -> None:
    seen: set[str] = set()
    for rule in pack.rules:
        if not isinstance(rule, Rule):
            title = titled(pack.card.name, pack.card.version, place_of(rule))
            raise PackRefusedError(f"{title} gives a rule that is no Rule: {rule!r:.60}")
        title = titled(pack.card.name, pack.card.version, place_of(rule.judge))
        name = rule.card.name
        if not isinstance(name, str) or not _RULE_NAME.fullmatch(name):
            raise PackRefusedError(f"{title}: rule name {name!r} is not words-with-hyphens")
        if name in seen:
            raise PackRefusedError(f"{title} has two rules named {name!r}")
        if name == SCOPE:
            raise PackRefusedError(f"{title}: the name {name!r} is kept for the pack's scope")
        if wrong := _wrong_with(rule):
            raise PackRefusedError(f"{title}: rule {name!r} {wrong}")
        seen.add(name)


def _wrong_with(rule: Rule) -> str:
    card = rule.card
    if empty := _empty_fields(card):
        return f"leaves empty on its card: {', '.join(empty)}"
    if card.severity not in get_args(Severity):
        return f"has no severity {card.severity!r}: {_listed(Severity)}"
    if card.basis is not None and card.basis not in get_args(Basis):
        return f"has no basis {card.basis!r}: {_listed(Basis)}"
    return "" if _takes_two(rule.judge) else "must be a function of (subject, study)"


def _takes_two(function: Any) -> bool:
    code = getattr(function, "__code__", None)
    if not callable(function):
        return False
    if not isinstance(code, CodeType) or code.co_flags & 0x04:  # takes *args
        return True
    given = len(function.__defaults__ or ())
    return code.co_argcount - given <= 2 <= code.co_argcount


def _check_word(title: str, word: Option | PartField) -> None:
    from catalogue.parts import KINDS
    from catalogue.units import SI_UNITS

    what = f"{'option' if isinstance(word, Option) else 'part field'} {word.name!r}"
    if not is_word(word.name):
        raise PackRefusedError(f"{title}: {what} is not words_with_underscores")
    if word.shape not in get_args(Shape):
        raise PackRefusedError(f"{title}: {what} has no shape {word.shape!r}: {_listed(Shape)}")
    if word.shape == "quantity" and word.dimension not in SI_UNITS:
        known = ", ".join(SI_UNITS)
        raise PackRefusedError(f"{title}: {what}: no dimension {word.dimension!r}; {known}")
    if word.shape == "choice" and not word.choices:
        raise PackRefusedError(f"{title}: {what} is a choice without choices")
    if not word.meaning:
        raise PackRefusedError(f"{title}: {what} does not say what it means")
    if isinstance(word, PartField) and word.kind not in KINDS:
        raise PackRefusedError(f"{title}: {what}: no kind of part {word.kind!r}")


def _check_ratings(title: str, ratings: StandardRatings) -> None:
    steps = zip(ratings.ratings, ratings.ratings[1:], strict=False)
    if not ratings.ratings or ratings.ratings[0] <= 0 or any(a >= b for a, b in steps):
        raise PackRefusedError(f"{title}: ratings {ratings.name!r} do not rise from above 0")


def _all_are(wanted: type, items: Iterable[Any], title: str, what: str) -> None:
    for item in items:
        if not isinstance(item, wanted):
            raise PackRefusedError(
                f"{title} gives {what} that is no {wanted.__name__}: {item!r:.60}"
            )


def _once(title: str, what: str, names: Iterable[str]) -> None:
    for name, count in Counter(names).items():
        if count > 1:
            raise PackRefusedError(f"{title} has two {what}s named {name!r}")


def _all_texts(items: Any) -> bool:
    return isinstance(items, (tuple, list)) and all(isinstance(item, str) for item in items)


def _listed(words: Any) -> str:
    return f"there are {', '.join(get_args(words))}"


def _empty_fields(card: Card | PackCard) -> tuple[str, ...]:
    names = (item.name for item in fields(card) if item.name not in _MAY_BE_EMPTY)
    return tuple(name for name in names if getattr(card, name) in ("", (), None))
