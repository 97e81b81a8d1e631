"""Loads the packs that a run asks for, one at a time; a pack it cannot use becomes a problem.

Nothing is imported but the packs asked for, and a pack never silently goes missing.
"""

from __future__ import annotations

import importlib
import re
from collections.abc import Iterable
from dataclasses import fields
from typing import Any

import pluggy

from catalogue.near_miss import nearest
from coordination.ampacity import AmpacityBasis
from coordination.rules import entry, hooks
from coordination.rules.card import Card, PackCard
from coordination.rules.pack import Pack, Packs
from coordination.rules.problem import RunProblem
from coordination.rules.rule import Rule

_RULE_NAME = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


class PackRefusedError(Exception):
    """Why a pack cannot be used, and what was probably meant."""

    def __init__(self, what: str, near_miss: str = "") -> None:
        super().__init__(what)
        self.what, self.near_miss = what, near_miss


class PackHost:
    """The door that every pack comes in by, built-in ones too.

    offers -- pack name to where it is ("module"); None: what is installed
    """

    def __init__(self, offers: entry.Offers | None = None) -> None:
        self._given = offers
        self._found: entry.Offers | None = offers
        self._loaded: dict[str, Pack | RunProblem] = {}

    def names(self) -> tuple[str, ...]:
        """Names of every pack that could be asked for, sorted; imports none."""
        known = self._given if self._given is not None else entry.all_installed(hooks.GROUP)
        return tuple(sorted(known))

    def load(self, names: Iterable[str]) -> Packs:
        """The packs of these names, in this order, each once."""
        packs, problems = [], []
        for name in dict.fromkeys(names):
            outcome = self._one(name)
            if isinstance(outcome, Pack):
                packs.append(outcome)
            else:
                problems.append(outcome)
        return Packs(tuple(packs), (*problems, *_clashing_bases(packs)))

    def _one(self, name: str) -> Pack | RunProblem:
        if name not in self._loaded:
            try:
                self._loaded[name] = _load(name, self._where(name))
            except PackRefusedError as refused:
                self._loaded[name] = RunProblem(
                    kind="pack", about=name, what=refused.what, near_miss=refused.near_miss
                )
            except (Exception, SystemExit) as error:
                self._loaded[name] = _crashed(name, error)
        return self._loaded[name]

    def _where(self, name: str) -> str:
        if self._found is None:
            self._found = entry.installed(hooks.GROUP)
        offers = self._found.get(name, ())
        if not offers and self._given is None:
            offers = entry.all_installed(hooks.GROUP).get(name, ())
        if not offers:
            raise PackRefusedError(f"no pack {name!r} is installed", nearest(name, self.names()))
        if len(offers) > 1:
            raise PackRefusedError(
                f"several installed packs are named {name!r}: {', '.join(offers)}"
            )
        return offers[0]


def _crashed(name: str, error: BaseException) -> RunProblem:
    import traceback

    return RunProblem(
        kind="pack",
        about=name,
        what=f"pack {name!r} cannot be loaded: {type(error).__name__}: {error}",
        trace="".join(traceback.format_exception(error)),
    )


def _load(name: str, where: str) -> Pack:
    manager = pluggy.PluginManager("fusewright")
    manager.add_hookspecs(hooks)
    manager.register(_plugin(where), name)
    manager.check_pending()
    card = _card(name, manager.hook.fusewright_pack())
    rules = tuple(rule for group in manager.hook.fusewright_rules() for rule in group)
    bases = tuple(basis for group in manager.hook.fusewright_ampacity_bases() for basis in group)
    _check_rules(name, rules)
    if not all(isinstance(basis, AmpacityBasis) for basis in bases):
        raise PackRefusedError(f"pack {name!r} gives an ampacity basis that is no AmpacityBasis")
    if not rules and not bases:
        raise PackRefusedError(f"pack {name!r} has neither a rule nor an ampacity basis")
    return Pack(card, rules, bases)


def _plugin(where: str) -> Any:
    module, _, attribute = where.partition(":")
    plugin: Any = importlib.import_module(module.strip())
    for part in filter(None, attribute.strip().split(".")):
        plugin = getattr(plugin, part)
    return plugin


def _card(name: str, cards: list[Any]) -> PackCard:
    if len(cards) != 1 or not isinstance(cards[0], PackCard):
        raise PackRefusedError(
            f"pack {name!r} lacks its card (hook fusewright_pack gives a PackCard)"
        )
    card: PackCard = cards[0]
    if card.name != name:
        raise PackRefusedError(f"pack {name!r} calls itself {card.name!r} on its card")
    if card.api != hooks.API_VERSION:
        raise PackRefusedError(
            f"pack {name!r} was written for version {card.api} of the pack door, "
            f"this Fusewright has version {hooks.API_VERSION}"
        )
    if empty := _empty_fields(card):
        raise PackRefusedError(f"the card of pack {name!r} leaves empty: {', '.join(empty)}")
    return card


def _check_rules(name: str, rules: tuple[Any, ...]) -> None:
    seen: set[str] = set()
    for rule in rules:
        if not isinstance(rule, Rule):
            raise PackRefusedError(f"pack {name!r} gives a rule that is no Rule: {rule!r:.60}")
        if not _RULE_NAME.fullmatch(rule.card.name):
            raise PackRefusedError(
                f"pack {name!r}: rule name {rule.card.name!r} is not words-with-hyphens"
            )
        if rule.card.name in seen:
            raise PackRefusedError(f"pack {name!r} has two rules named {rule.card.name!r}")
        if empty := _empty_fields(rule.card):
            raise PackRefusedError(
                f"{name}/{rule.card.name}: its card leaves empty: {', '.join(empty)}"
            )
        seen.add(rule.card.name)


def _empty_fields(card: Card | PackCard) -> tuple[str, ...]:
    return tuple(item.name for item in fields(card) if getattr(card, item.name) in ("", (), None))


def _clashing_bases(packs: list[Pack]) -> list[RunProblem]:
    owners: dict[str, str] = {}
    problems = []
    for pack in packs:
        for basis in pack.bases:
            other = owners.setdefault(basis.name, pack.card.name)
            if other != pack.card.name:
                both = f"packs {other!r} and {pack.card.name!r}"
                what = f"{both} both bring an ampacity basis {basis.name!r}"
                problems.append(RunProblem(kind="pack", about=pack.card.name, what=what))
    return problems
