"""Rule cards and pack cards as text: what a rule wants, why, and what it rests on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from coordination.report.lines import labelled
from coordination.report.summary import pack_words
from coordination.report.tables import columns
from coordination.report.wording import clean, source_words

if TYPE_CHECKING:
    from coordination.rules.pack import Pack
    from coordination.rules.rule import Rule


def rule_index(packs: Sequence[Pack], width: int) -> str:
    """Every pack with its rules, one line each."""
    return (
        "\n".join(line for pack in packs for line in _pack_lines(pack, width)).lstrip("\n") + "\n"
    )


def _pack_lines(pack: Pack, width: int) -> Iterator[str]:
    yield ""
    yield pack_words(pack)
    others = [edition for edition in pack.editions if edition != pack.card.edition]
    if others:
        yield clean(f"  other editions: {', '.join(f'{pack.card.name}@{each}' for each in others)}")
    cards = [(pack.full_name(rule), rule.card) for rule in pack.rules]
    rows = [(name, card.title, card.basis or "", source_words(card.source)) for name, card in cards]
    cells = [tuple(map(clean, row)) for row in rows]
    yield from columns(cells, ("rule", "what must hold", "basis", "clause"), "llll", width)


def rule_card(pack: Pack, rule: Rule, width: int) -> str:
    """One rule's whole card, ending in a newline."""
    card = rule.card
    rows = [
        ("why", card.why),
        ("wrong", card.wrong),
        ("right", card.right),
        ("asked of", ", ".join(rule.each)),
        ("severity", card.severity),
        ("rests on", card.basis or ""),
        ("source", source_words(card.source)),
        ("pack", pack_words(pack)),
    ]
    head = f"{pack.full_name(rule)}  {card.title}"
    return "\n".join([clean(head), *labelled([(a, clean(b)) for a, b in rows], width, "  ")]) + "\n"


def pack_card(pack: Pack, width: int) -> str:
    """A pack's card with its rules, ending in a newline."""
    card = pack.card
    rows = [
        ("title", card.title),
        ("holds for", card.jurisdiction),
        ("scope", card.scope),
        *(("not covered", item) for item in card.not_covered),
    ]
    bases = [
        ("ampacity", f"{basis.name}: {basis.title} ({source_words(basis.source)})")
        for basis in pack.bases
    ]
    bases += [
        ("ratings", f"{each.name} ({source_words(each.source)})") for each in pack.ratings
    ]
    bases += [(f"option {each.name}", each.meaning) for each in pack.options]
    bases += [(f"{each.kind}.{each.name}", each.meaning) for each in pack.part_fields]
    lines = labelled([(label, clean(text)) for label, text in (*rows, *bases)], width, "  ")
    return "\n".join([rule_index([pack], width), *lines]) + "\n"
