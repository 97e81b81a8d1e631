"""`fusewright rules`: the cards of the installed packs and their rules."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coordination.cli.output import columns, emit
from coordination.cli.pipeline import known_word

if TYPE_CHECKING:
    from coordination.rules.pack import Packs


def show_rules(name: str | None, width: int | None) -> int:
    """Print the index, a rule's card or a pack's; gives 3 if a pack could not be loaded.

    Raises BadInput: no such rule or pack.
    """
    from coordination.report.cards import rule_index
    from coordination.report.lines import wrapped
    from coordination.report.summary import problem_line
    from coordination.rules.host import PackHost

    host = PackHost()
    packs = host.load(host.names())
    room = columns(width)
    emit(_card(name, packs, room) if name else rule_index(packs.packs, room))
    for problem in packs.problems:
        lines = wrapped(f"Problem: {problem_line(problem, '')}", room, "", "  ")
        emit("\n" + "\n".join(lines) + "\n")
    return 3 if packs.problems else 0


def _card(name: str, packs: Packs, width: int) -> str:
    from coordination.report.cards import pack_card, rule_card

    for pack in packs.packs:
        if pack.card.name == name:
            return pack_card(pack, width)
    cards = [
        rule_card(pack, rule, width)
        for pack, rule in packs.rules()
        if name in (pack.full_name(rule), rule.card.name)
    ]
    if not cards:
        known_word("rule or pack", name, _near_names(name, packs), "fusewright rules")
    return "\n".join(cards)


def _near_names(name: str, packs: Packs) -> tuple[str, ...]:
    full = packs.rule_names()
    rules = full if "/" in name else tuple(each.partition("/")[2] for each in full)
    return (*rules, *(pack.card.name for pack in packs.packs))
