"""Loads the packs that a run asks for, one at a time; a pack it cannot use becomes a problem.

Nothing is imported but the packs asked for, and a pack never silently goes missing.
"""

from __future__ import annotations

import importlib
from collections.abc import Iterable
from datetime import date
from typing import Any

from catalogue.near_miss import nearest
from coordination.rules import entry, hooks, loading
from coordination.rules.calls import MisdeedError, guarded
from coordination.rules.card import UNDATED
from coordination.rules.pack import Pack, Packs
from coordination.rules.problem import RunProblem
from coordination.rules.refused import PackRefusedError


class PackHost:
    """The door that every pack comes in by, built-in ones too.

    offers -- pack name to where it is ("module"); None: what is installed
    today  -- the day on which an edition must be in force, where none is named
    """

    def __init__(self, offers: entry.Offers | None = None, today: date | None = None) -> None:
        self.today = (today or date.today()).isoformat()
        self._plugins: dict[str, loading.Plugin] = {}
        self._given = offers
        self._found: entry.Offers | None = offers
        self._loaded: dict[str, Pack | RunProblem] = {}

    def names(self) -> tuple[str, ...]:
        """Names of every pack that could be asked for, sorted; imports none."""
        known = self._given if self._given is not None else entry.all_installed(hooks.GROUP)
        return tuple(sorted(known))

    def next_edition(self, names: Iterable[str]) -> str:
        """The day (ISO date) from which one of these packs, loaded already, is another edition.

        Empty if none will be: each is pinned, or in its newest edition.
        """
        bare = (name for name in names if "@" not in name and name in self._plugins)
        later = (card.in_force for name in bare for card in self._plugins[name].cards)
        return min((day for day in later if self.today < day < UNDATED), default="")

    def load(self, names: Iterable[str]) -> Packs:
        """The packs of these names, in this order, each once.

        A name may pin an edition: "us_small_craft@2024"; without, the newest in force counts.
        """
        packs: dict[str, Pack] = {}
        problems = []
        for name in dict.fromkeys(names):
            outcome = self._one(name)
            if isinstance(outcome, RunProblem):
                problems.append(outcome)
            elif (other := packs.setdefault(outcome.card.name, outcome)) is not outcome:
                problems.append(_twice(outcome, other))
        return Packs(tuple(packs.values()), (*problems, *_clashing_bases(list(packs.values()))))

    def _one(self, asked: str) -> Pack | RunProblem:
        if asked not in self._loaded:
            self._loaded[asked] = self._try(asked)
        return self._loaded[asked]

    def _try(self, asked: str) -> Pack | RunProblem:
        try:
            with guarded(loading.LIMIT, errors=False) as calls:
                return calls(self._load, asked)
        except MisdeedError as misdeed:
            return loading.problem(asked.partition("@")[0], misdeed)

    def _load(self, asked: str) -> Pack:
        name, at, edition = asked.partition("@")
        plugin = self._plugin(name)
        card = loading.edition_of(plugin, edition if at else None, self.today)
        return loading.pack_of(plugin, card)

    def _plugin(self, name: str) -> loading.Plugin:
        if name not in self._plugins:
            self._plugins[name] = loading.admit(name, _imported(self.where(name)))
        return self._plugins[name]

    def where(self, name: str) -> str:
        """The module that offers the pack of that name. Raises PackRefusedError: none, several."""
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


def _imported(where: str) -> Any:
    module, _, attribute = where.partition(":")
    plugin: Any = importlib.import_module(module.strip())
    for part in filter(None, attribute.strip().split(".")):
        plugin = getattr(plugin, part)
    return plugin


def _twice(pack: Pack, other: Pack) -> RunProblem:
    both = f"{other.card.edition!r} and {pack.card.edition!r}"
    what = f"pack {pack.card.name!r} is asked for in two editions, {both}: only the first ran"
    return RunProblem(kind="pack", about=pack.card.name, what=what)


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
