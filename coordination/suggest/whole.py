"""Mends a whole system: one subject after another, each on top of what was mended before.

Each step is a search of its own, so that the steps together need not be the fewest changes that
there are; a change that turns out not to be needed is taken out again.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from coordination.suggest.change import Changes, in_order, rank
from coordination.suggest.judging import Bench, Key, Stopped, Violation
from coordination.suggest.moves import Moves
from coordination.suggest.search import Found, Search

_GRAVITY = {"fire": 0, "damage": 1, "outage": 2, "paperwork": 3}

#: Changes near a fail that are made anew, one at a time, to mend it too.
_AGAIN = 4
#: Cures of one step that are weighed against each other.
_ENOUGH = 2
#: Combinations that are judged for one step at most.
_PORTION = 80
#: Changes near a fail that are made anew all together.
_TOGETHER = 3


class Mended(NamedTuple):
    """What a whole system comes to.

    changes   -- all together; mended -- the fails that they cure
    left      -- fails that no changes were found for, with what the search of each found
    exhausted -- whether no search of what is left was stopped
    """

    changes: Changes
    mended: frozenset[Key]
    left: dict[Key, Found]
    exhausted: bool


class Mending:
    """One system being mended."""

    def __init__(self, bench: Bench, moves: Moves, most: int) -> None:
        self.bench, self.moves, self.most = bench, moves, most
        self.changes: Changes = frozenset()
        self.mended: set[Key] = set()
        self.left: dict[Key, Found] = {}
        self._all: frozenset[Key] = frozenset()
        self._stopped = False

    def run(self, targets: Iterable[Key]) -> Mended:
        """Mend as many of the targets as can be; those that cannot stay in `left`."""
        by_subject: dict[str, list[Key]] = {}
        self._all = frozenset(targets)
        for key in sorted(self._all):
            by_subject.setdefault(key[1], []).append(key)
        order = sorted(by_subject.values(), key=self._gravity)
        # What one change mends goes first: it is quickly found, and most need no more.
        for most in range(1, self.most + 1):
            for keys in order:
                self._subject([key for key in keys if key not in self.mended], most)
        for key in list(self.left):
            if not self._found((key,), self.changes, self.most):
                self._again(key)
        self._take_out()
        exhausted = not self._stopped and all(found.exhausted for found in self.left.values())
        return Mended(self.changes, frozenset(self.mended), self.left, exhausted)

    def _gravity(self, keys: Sequence[Key]) -> tuple[int, int, str]:
        """Gravest first; of these the ones with the fewest ways."""
        findings = [each for each in self.bench.base.findings if (each.rule, each.subject) in keys]
        worst = min(_GRAVITY[each.severity] for each in findings)
        ways = (self.moves.curing(Violation(keys[0], each), frozenset()) for each in findings)
        return worst, min(len(way) for way in ways), keys[0][1]

    def _subject(self, keys: Sequence[Key], most: int) -> None:
        if not keys or self._found(keys, self.changes, most) or len(keys) == 1:
            return
        for key in sorted(keys, key=lambda key: self._gravity((key,))):
            self._found((key,), self.changes, most)

    def _again(self, key: Key) -> bool:
        """Mend a fail by making the changes near it anew, one of them or all together."""
        finding = next(f for f in self.bench.base.findings if (f.rule, f.subject) == key)
        near = {change.slot for change in self.moves.curing(Violation(key, finding), frozenset())}
        clashing = [change for change in in_order(self.changes) if change.slot in near]
        if any(
            self._found((key,), self.changes - {change}, most)
            for most in range(1, self.most + 1)
            for change in clashing[:_AGAIN]
        ):
            return True
        if self.most == 1 or not 1 < len(clashing) <= _TOGETHER:
            return False
        base = self.changes - frozenset(clashing)
        return self._found((key,), base, len(clashing) + 1, 3 * _PORTION)

    def _found(
        self, keys: Sequence[Key], base: Changes, most: int, portion: int = _PORTION
    ) -> bool:
        targets = {*self.mended, *keys}
        search = Search(self.bench, self.moves, targets, base=base, enough=_ENOUGH)
        with self.bench.limit.portion(portion):
            found = search.run(most)
        self.left |= dict.fromkeys(keys, found)
        if not found.cures:
            return False
        self.changes = self._best(found.cures)
        self.mended.update(keys)
        self.left = {key: each for key, each in self.left.items() if key not in keys}
        return True

    def _best(self, cures: Sequence[Changes]) -> Changes:
        """The one that leaves the fewest other fails; of these the smallest."""
        try:
            return min(cures, key=lambda cure: (self.bench.still_open(cure, self._all), rank(cure)))
        except Stopped:
            return cures[0]

    def _take_out(self) -> None:
        """Leave out what is not needed, now that everything else is there."""
        try:
            for change in in_order(self.changes):
                fewer = self.changes - {change}
                if self.bench.violations(fewer, self.mended) == []:
                    self.changes = fewer
        except Stopped:
            self._stopped = True
