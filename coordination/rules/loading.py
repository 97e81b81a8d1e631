"""Makes packs of a plugin: its cards first, then everything else of one edition.

All that comes in by the door is checked here, so that nobody behind it has to ask again.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any, NamedTuple

import pluggy

from catalogue.near_miss import nearest
from coordination.rules import hooks, inspection
from coordination.rules.calls import MisdeedError, TimeLimit
from coordination.rules.card import PackCard
from coordination.rules.hookcheck import Fault, faults, place_of
from coordination.rules.pack import Pack
from coordination.rules.problem import RunProblem
from coordination.rules.refused import PackRefusedError, titled
from coordination.rules.rule import Rule

#: Longest time [s] that a pack may take to load.
LIMIT = 30.0


class Plugin(NamedTuple):
    """A plugin that may come in: its hooks, and its cards by rising date."""

    name: str
    hook: Any
    cards: tuple[PackCard, ...]


def admit(name: str, plugin: Any) -> Plugin:
    """The plugin with its cards. Raises PackRefusedError."""
    wrong = tuple(faults(plugin))
    manager = pluggy.PluginManager("fusewright")
    manager.add_hookspecs(hooks)
    if any(fault.hook == "fusewright_pack" for fault in wrong):
        _refuse(name, "", wrong)
    given = _card_hook(plugin)
    if given is None:
        _refuse(name, "", wrong)
        what = f"{titled(name)} lacks its card (hook fusewright_pack gives a PackCard)"
        raise PackRefusedError(what)
    cards = inspection.cards(name, given(), place_of(given), hooks.API_VERSION)
    _refuse(name, cards[-1].version, wrong)
    manager.register(plugin, name)
    return Plugin(name, manager.hook, cards)


def _card_hook(plugin: Any) -> Any:
    for attribute in dir(plugin):
        function = getattr(plugin, attribute, None)
        marked = getattr(function, "fusewright_impl", None)
        if marked is not None and (marked.get("specname") or attribute) == "fusewright_pack":
            return function
    return None


def _refuse(name: str, version: str, wrong: tuple[Fault, ...]) -> None:
    if wrong:
        first = wrong[0]
        what = f"{titled(name, version, first.where)}: {first.what}"
        raise PackRefusedError(what, first.near_miss)


def edition_of(plugin: Plugin, edition: str | None, today: str) -> PackCard:
    """The card of that edition; without one the newest in force on the day (an ISO date).

    Raises PackRefusedError if there is none.
    """
    known = tuple(card.edition for card in plugin.cards)
    title = titled(plugin.name, plugin.cards[-1].version)
    if edition is not None:
        for card in plugin.cards:
            if card.edition == edition:
                return card
        what = f"{title} has no edition {edition!r}; there are {', '.join(known)}"
        raise PackRefusedError(what, _pinned(plugin.name, nearest(edition, known)))
    in_force = [card for card in plugin.cards if card.in_force <= today]
    if not in_force:
        first = plugin.cards[0]
        what = f"{title}: no edition is in force on {today}; {first.edition} is on {first.in_force}"
        raise PackRefusedError(what, _pinned(plugin.name, first.edition))
    return in_force[-1]


def _pinned(name: str, edition: str) -> str:
    return f"{name}@{edition}" if edition else ""


def pack_of(plugin: Plugin, card: PackCard) -> Pack:
    """The pack in the card's edition. Raises PackRefusedError."""
    hook, edition = plugin.hook, card.edition
    sections = hook.fusewright_report_sections
    pack = Pack(
        card=card,
        rules=_all("rules", plugin, hook.fusewright_rules(edition=edition)),
        bases=_all("ampacity_bases", plugin, hook.fusewright_ampacity_bases(edition=edition)),
        editions=tuple(each.edition for each in plugin.cards),
        options=_all("options", plugin, hook.fusewright_options()),
        part_fields=_all("part_fields", plugin, hook.fusewright_part_fields()),
        ratings=_all("standard_ratings", plugin, hook.fusewright_standard_ratings(edition=edition)),
        sections=sections if sections.get_hookimpls() else None,
    )
    return finished(pack)


def finished(pack: Pack) -> Pack:
    """The pack, held to what a pack must be. Raises PackRefusedError."""
    inspection.contents(pack)
    return replace(pack, rules=tuple(_based(rule, pack.card) for rule in pack.rules))


def problem(name: str, misdeed: MisdeedError) -> RunProblem:
    """What kept a pack from being loaded."""
    cause = misdeed.__cause__
    if isinstance(cause, PackRefusedError):
        return RunProblem(kind="pack", about=name, what=cause.what, near_miss=cause.near_miss)
    import traceback

    return RunProblem(
        kind="pack",
        about=name,
        what=f"pack {name!r}{_last_place(cause)} cannot be loaded: {misdeed}",
        trace="".join(traceback.format_exception(cause)) if cause else "",
    )


def _last_place(error: BaseException | None) -> str:
    """ " (file:line)" of the line that failed."""
    trace = error.__traceback__ if error else None
    if trace is None or not isinstance(error, Exception | SystemExit | TimeLimit):
        return ""
    while trace.tb_next is not None:
        trace = trace.tb_next
    return f" ({trace.tb_frame.f_code.co_filename}:{trace.tb_lineno})"


def _based(rule: Rule, card: PackCard) -> Rule:
    """The rule with what it rests on; the pack's card answers where its own does not."""
    if rule.card.basis is not None:
        return rule
    return replace(rule, card=replace(rule.card, basis=card.status))


def _all(hook: str, plugin: Plugin, groups: list[Any]) -> tuple[Any, ...]:
    """What a hook's implementation gave, as one tuple."""
    found: list[Any] = []
    for group in groups:
        if isinstance(group, (str, bytes)) or not isinstance(group, Iterable):
            what = f"hook fusewright_{hook} gives {group!r:.60}, not a sequence"
            raise PackRefusedError(f"{titled(plugin.name, plugin.cards[-1].version)}: {what}")
        found.extend(group)
    return tuple(found)
