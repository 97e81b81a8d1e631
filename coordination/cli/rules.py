"""`fusewright rules`: the cards of packs and their rules, their reference, and a pack to start."""

from __future__ import annotations

import os
from datetime import date
from typing import TYPE_CHECKING

from coordination.checking import known_word
from coordination.checking.local import Local, configured, with_local
from coordination.cli.output import columns, emit
from coordination.errors import BadInput, Problem

if TYPE_CHECKING:
    from coordination.rules.pack import Packs

_USAGE = "fusewright rules [NAME], or fusewright rules new PACK [FOLDER]"


def rules_command(
    words: tuple[str, ...], local: Local, width: int | None, *, markdown: bool
) -> int:
    """What was asked for; gives 3 if a pack could not be loaded. Raises BadInput, OSError."""
    if words[:1] == ("new",):
        from coordination.cli.new_pack import write_pack

        if len(words) not in (2, 3):
            raise _usage("rules new wants the name of the pack, and perhaps a folder")
        return write_pack(words[1], words[2] if len(words) == 3 else None)
    if len(words) > 1:
        raise _usage(f"one name at most, not {len(words)}")
    return show_rules(words[0] if words else None, local, width, markdown=markdown)


def _usage(what: str) -> BadInput:
    return BadInput((Problem("fusewright rules", 0, 0, what, _USAGE),))


def show_rules(name: str | None, local: Local, width: int | None, *, markdown: bool = False) -> int:
    """Print the index, a rule's card, a pack's, or the reference.

    The reference has each pack's newest edition, whatever the day, and none of the user's own
    configuration: it is made for documents.
    """
    from coordination.report.cards import rule_index
    from coordination.report.reference import rule_reference
    from coordination.report.summary import problem_line
    from coordination.rules.host import PackHost

    host = PackHost(today=date.max if markdown else None)
    asked = (name,) if name and "@" in name else host.names()
    own = Local() if markdown else configured(os.environ)
    packs = with_local(host.load(asked), own + local, host.today)
    room = columns(width)
    if markdown:
        emit(rule_reference(_chosen(name, packs).packs))
    else:
        emit(_card(name.partition("@")[0], packs, room) if name else rule_index(packs.packs, room))
    for problem in packs.problems:
        emit(f"\nProblem: {problem_line(problem, '')}\n")
    return 3 if packs.problems else 0


def _chosen(name: str | None, packs: Packs) -> Packs:
    from dataclasses import replace

    if name is None:
        return packs
    bare = name.partition("@")[0]
    known_word("pack", bare, (pack.card.name for pack in packs.packs), "fusewright rules")
    return replace(packs, packs=tuple(pack for pack in packs.packs if pack.card.name == bare))


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
    if not cards and not packs.problems:
        known_word("rule or pack", name, _near_names(name, packs), "fusewright rules")
    return "\n".join(cards)


def _near_names(name: str, packs: Packs) -> tuple[str, ...]:
    full = packs.rule_names()
    rules = full if "/" in name else tuple(each.partition("/")[2] for each in full)
    return (*rules, *(pack.card.name for pack in packs.packs))
