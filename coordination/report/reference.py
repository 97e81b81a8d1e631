"""The reference of rules as markdown, made from the cards of loaded packs and nothing else."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from coordination.report.tables import markdown_safe, markdown_table
from coordination.report.wording import number, source_words
from coordination.rules.card import UNDATED

if TYPE_CHECKING:
    from coordination.rules.pack import Pack
    from coordination.rules.rule import Rule
    from coordination.rules.words import Option, PartField

_HEAD = """# Rules

Made by `fusewright rules --markdown`; do not edit. Each rule says what it rests on: **physics**,
public **law**, a **standard**, or **practice**. A clause marked "(from memory)" was not read:
unless physics itself demands it, a fail by it is paperwork: the text of the standard decides."""


def rule_reference(packs: Sequence[Pack]) -> str:
    """Every pack with its options and rules, ending in a newline."""
    lines = [_HEAD, "", *_contents(packs)]
    for pack in packs:
        lines += _pack(pack)
    lines += _house_words()
    return "\n".join(lines) + "\n"


def _contents(packs: Sequence[Pack]) -> Iterator[str]:
    rows = [
        (pack.card.name, pack.card.edition, pack.card.jurisdiction, str(len(pack.rules)))
        for pack in packs
    ]
    yield markdown_table(rows, ("pack", "edition", "holds for", "rules"), "lllr")


def _pack(pack: Pack) -> Iterator[str]:
    card = pack.card
    dated = "" if card.in_force == UNDATED else f", in force {card.in_force}"
    yield from ("", f"## {markdown_safe(card.name)}: {markdown_safe(card.title)}", "")
    yield f"- version {markdown_safe(card.version)}, edition {markdown_safe(card.edition)}{dated}"
    others = [edition for edition in pack.editions if edition != card.edition]
    if others:
        yield f"- other editions: {markdown_safe(', '.join(others))}"
    yield f"- holds for: {markdown_safe(card.jurisdiction)}"
    yield f"- scope: {markdown_safe(card.scope)}"
    yield from (f"- not covered: {markdown_safe(item)}" for item in card.not_covered)
    for basis in pack.bases:
        words = f"{basis.name}: {basis.title} ({source_words(basis.source)})"
        yield f"- ampacity: {markdown_safe(words)}"
    for ratings in pack.ratings:
        words = ", ".join(number(rating, "A") for rating in ratings.ratings)
        yield f"- ratings {markdown_safe(ratings.name)} ({source_words(ratings.source)}): {words}"
    yield from _words("Options", pack.options, f"options: {{{card.name}: {{...}}}}")
    yield from _words("Fields of parts", pack.part_fields, f"{card.name}.name: value in parts:")
    yield from _index(pack)
    for rule in pack.rules:
        yield from _rule(pack, rule)


def _words(title: str, words: Sequence[Option | PartField], where: str) -> Iterator[str]:
    if not words:
        return
    rows = [(f"{word.name}", _holds(word), word.meaning) for word in words]
    yield from ("", f"{title}, under `{where}`:", "")
    yield markdown_table(rows, ("name", "holds", "meaning"), "lll")


def _holds(word: Option | PartField) -> str:
    held = {"flag": "yes, no", "choice": ", ".join(word.choices), "quantity": word.dimension}
    return held.get(word.shape, word.shape)


def _index(pack: Pack) -> Iterator[str]:
    rows = [
        (rule.card.name, rule.card.title, rule.card.basis or "", source_words(rule.card.source))
        for rule in pack.rules
    ]
    yield from ("", markdown_table(rows, ("rule", "what must hold", "basis", "clause"), "llll"))


def _house_words() -> Iterator[str]:
    """The vocabulary of house rules; like a pack, it says itself what it knows."""
    from coordination.rules.house.limits import NEIGHBOURS
    from coordination.rules.house.vocabulary import KINDS, WORDS

    rows = [
        (name, word.dimension or ", ".join(word.choices) or word.shape, word.meaning,
         "everything" if word.kinds == KINDS else ", ".join(word.kinds))
        for name, word in WORDS.items()
    ]  # fmt: skip
    yield from ("", "## House rules", "")
    yield "What `house_rules.yaml` may limit, and in `where:` ask for. A quantity wants `>=` or"
    yield "`<=` and a value with its unit, a text one or several words, a flag yes or no."
    near = ", ".join((*NEIGHBOURS, "busbar"))
    yield f"`directly_on:` is one of {near}: with no fuse or breaker between."
    yield ""
    yield markdown_table(rows, ("word", "holds", "meaning", "of every"), "llll")


def _rule(pack: Pack, rule: Rule) -> Iterator[str]:
    card = rule.card
    facts = [
        ("basis", card.basis or ""),
        ("clause", source_words(card.source)),
        ("asked of", ", ".join(rule.each)),
        ("severity of a fail", card.severity),
        ("why", card.why),
        ("wrong", card.wrong),
        ("right", card.right),
    ]
    yield from ("", f"### {markdown_safe(pack.full_name(rule))}", "")
    yield from (f"{markdown_safe(card.title)}.", "")
    yield from (f"- {label}: {markdown_safe(text)}" for label, text in facts)
