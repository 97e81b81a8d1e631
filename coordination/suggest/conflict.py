"""Why there is no cure: rules that cannot hold together, and the least that must be accepted."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import TYPE_CHECKING

from coordination.suggest.answer import Conflict
from coordination.suggest.change import Change, Changes, in_order, rank
from coordination.suggest.judging import Bench, Key, Stopped
from coordination.suggest.moves import Moves
from coordination.suggest.search import Found, Near, Search

if TYPE_CHECKING:
    from coordination.rules.finding import Finding

#: Rules are given up in this order: what only darkens before what burns.
_ORDER = ("paperwork", "outage", "damage", "fire")
#: Nearest misses that are told.
_EXAMPLES = 6
#: Sets of changes whose remaining fails are counted, for each rule that is given up.
_WEIGHED = 3


class Conflicts:
    """Explains one search without a cure."""

    def __init__(self, bench: Bench, moves: Moves, targets: Collection[Key], most: int) -> None:
        self.bench, self.moves, self.most = bench, moves, most
        self.targets = frozenset(targets)

    def explain(self, found: Found) -> Conflict:
        """The conflict behind a search that found nothing."""
        rules = self._rules(found)
        least: tuple[tuple[Finding, ...], Changes] = (self._as_drawn(), frozenset())
        try:
            least = min(
                (least, *(each for rule in rules for each in self._without({rule}))), key=_weight
            )
            smallest = self._smallest(rules) if found.exhausted else ()
        except Stopped:
            smallest = ()
        near = sorted(found.near, key=lambda each: (len(each.violations), rank(each.changes)))
        return Conflict(
            rules=smallest,
            examples=tuple(map(_example, _varied(near)))[:_EXAMPLES],
            waivers=least[0],
            by=in_order(least[1]),
        )

    def _rules(self, found: Found) -> list[str]:
        """Rules that stood in the way anywhere, those first that are given up most easily."""
        gravity: dict[str, int] = {}
        findings = [*self._as_drawn(), *(v.finding for near in found.near for v in near.violations)]
        for each in findings:
            if each.verdict == "fail":
                gravity.setdefault(each.rule, _ORDER.index(each.severity))
        return sorted(gravity, key=lambda rule: (gravity[rule], rule))

    def _as_drawn(self) -> tuple[Finding, ...]:
        findings = self.bench.base.findings
        return tuple(each for each in findings if (each.rule, each.subject) in self.targets)

    def _search(self, relaxed: Collection[str], enough: int) -> Found:
        search = Search(
            self.bench, self.moves, self.targets, relaxed=frozenset(relaxed), enough=enough
        )
        found = search.run(self.most)
        if not found.exhausted:
            raise Stopped
        return found

    def _without(self, relaxed: Collection[str]) -> list[tuple[tuple[Finding, ...], Changes]]:
        """Cures that leave fails of the relaxed rules, each with these fails."""
        cures = self._search(relaxed, _WEIGHED).cures
        return [(self._remaining(cure), cure) for cure in cures[:_WEIGHED]]

    def _remaining(self, changes: Changes) -> tuple[Finding, ...]:
        """The targets and new fails that are left with these changes, in any condition."""
        names = self.bench.edited(changes)
        found = self.bench.whole(names.system).findings
        return tuple(each.finding for each in self.bench.among(found, names, self.targets))

    def _smallest(self, rules: Sequence[str]) -> tuple[str, ...]:
        """Rules of which none can be left out: without any one of them there is a cure."""
        given_up: set[str] = set()
        for rule in rules:
            if not self._search({*given_up, rule}, 1).cures:
                given_up.add(rule)
        return tuple(sorted(set(rules) - given_up))


def _weight(each: tuple[tuple[Finding, ...], Changes]) -> tuple[int, int, object]:
    """Fewest fires left, then fewest fails, then fewest changes."""
    fails, changes = each
    return sum(fail.severity == "fire" for fail in fails), len(fails), rank(changes)


def _varied(near: Sequence[Near]) -> list[Near]:
    """Of misses that fail alike at the same places only the first."""
    first: dict[object, Near] = {}
    for each in near:
        places = frozenset(change.slot for change in each.changes)
        first.setdefault((places, frozenset(v.key for v in each.violations)), each)
    return list(first.values())


def _example(near: Near) -> tuple[tuple[Change, ...], tuple[Finding, ...]]:
    return in_order(near.changes), tuple(each.finding for each in near.violations)
