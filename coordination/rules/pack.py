"""Packs once loaded: their card, rules and ampacity bases, and what went wrong on the way.

`host` makes them; `judge` asks their rules.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from catalogue.frozen import dataclass
from coordination.ampacity import AmpacityBasis, Installation
from coordination.rules.card import PackCard
from coordination.rules.problem import RunProblem
from coordination.rules.rule import Rule
from coordination.rules.words import Option, PartField, StandardRatings
from coordination.trace import DEFINITION, Unknown, Value


@dataclass(frozen=True, slots=True)
class Pack:
    """One loaded pack, in one edition.

    bases    -- the ways to find an ampacity that it brings
    editions -- those it has, by rising date of force
    options, part_fields, ratings -- what it adds beside rules
    sections -- gives its sections of the report (findings=, edition=); None: it has none
    """

    card: PackCard
    rules: tuple[Rule, ...]
    bases: tuple[AmpacityBasis, ...] = ()
    editions: tuple[str, ...] = ()
    options: tuple[Option, ...] = ()
    part_fields: tuple[PartField, ...] = ()
    ratings: tuple[StandardRatings, ...] = ()
    sections: Callable[..., Any] | None = None

    def full_name(self, rule: Rule) -> str:
        """The rule's name in findings and waivers: "fundamentals/interrupt-rating"."""
        return f"{self.card.name}/{rule.card.name}"


@dataclass(frozen=True, slots=True)
class Packs:
    """The packs of one run in the order asked for, and a problem for each that is not there."""

    packs: tuple[Pack, ...]
    problems: tuple[RunProblem, ...] = ()

    def with_pack(self, more: Pack | RunProblem) -> Packs:
        """These and one more, or one more problem; a name that is taken is a problem too."""
        if isinstance(more, RunProblem):
            return Packs(self.packs, (*self.problems, more))
        name = more.card.name
        if any(pack.card.name == name for pack in self.packs):
            what = f"a pack {name!r} is in use already: {more.card.title!r} was left out"
            return self.with_pack(RunProblem(kind="pack", about=name, what=what))
        return Packs((*self.packs, more), self.problems)

    def rules(self) -> Iterator[tuple[Pack, Rule]]:
        """Every rule with its pack, in the order of the packs."""
        return ((pack, rule) for pack in self.packs for rule in pack.rules)

    def rule_names(self) -> tuple[str, ...]:
        """Full names of all rules."""
        return tuple(pack.full_name(rule) for pack, rule in self.rules())

    def bases(self) -> tuple[AmpacityBasis, ...]:
        """Every ampacity basis, in the order of the packs."""
        return tuple(basis for pack in self.packs for basis in pack.bases)

    def basis(self, name: str | None) -> AmpacityBasis:
        """The basis of that name; without a name the first one.

        If there is none, a stand-in that knows no ampacity: every rule that asks is unproven.
        """
        for basis in self.bases():
            if name is None or basis.name == name:
                return basis
        return _no_basis(name, tuple(basis.name for basis in self.bases()))


def _no_basis(name: str | None, known: tuple[str, ...]) -> AmpacityBasis:
    bring = ", ".join(known) or "none"
    there = f"; the packs in use bring: {bring}"
    what = f"ampacity basis {name!r}{there}" if name else f"an ampacity basis{there}"

    def ampacity(installation: Installation) -> Value:  # noqa: ARG001
        return Unknown("ampacity", (what,))

    return AmpacityBasis(
        name=name or "none", title="no ampacity basis", source=DEFINITION, ampacity=ampacity
    )
