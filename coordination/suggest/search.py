"""Finds the smallest sets of changes that cure: all sets of one change, then of two, and so on.

At each step one violation is taken, that with the fewest changes near it, and each of these is
tried: a cure must change something that this violation rests on. So every set of up to the stated
number of changes is reached, as long as something near each violation is part of it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from typing import NamedTuple

from coordination.suggest.change import Change, Changes, rank
from coordination.suggest.judging import Bench, Key, Stopped, Violation
from coordination.suggest.moves import Moves


class Near(NamedTuple):
    """Changes that do not cure, and what is then still in the way (in one condition)."""

    changes: Changes
    violations: tuple[Violation, ...]


class Found(NamedTuple):
    """What a search has found.

    cures     -- sets of changes, all of one number, best first, up to _ALIKE that change the same
                 places; empty: none
    exhausted -- whether every combination within the bounds was looked at
    near      -- what did not cure, for the reasons
    """

    cures: tuple[Changes, ...]
    exhausted: bool
    near: tuple[Near, ...]


class Search:
    """Searches for one set of targets."""

    def __init__(
        self,
        bench: Bench,
        moves: Moves,
        targets: Collection[Key],
        *,
        relaxed: Collection[str | Key] = (),
        base: Changes = frozenset(),
        enough: int = 100,
    ) -> None:
        self.bench, self.moves = bench, moves
        self.targets, self.relaxed = frozenset(targets), frozenset(relaxed)
        self.base, self.enough = base, enough
        self._cures: list[Changes] = []
        self._places: Counter[frozenset[tuple[str, str, int]]] = Counter()
        self._near: dict[Changes, tuple[Violation, ...]] = {}
        self._seen: set[Changes] = set()
        self._violations: dict[Changes, list[Violation] | None] = {}

    def run(self, most: int) -> Found:
        """The smallest cures of up to `most` changes beside the base."""
        exhausted = True
        try:
            root = self.bench.violations(self.base, self.targets, self.relaxed)
            if root == []:
                return Found((self.base,), True, ())
            for depth in range(1, most + 1):
                self._seen = {self.base}
                self._deeper(self.base, root or [], depth)
                if self._cures:
                    break
        except Stopped:
            exhausted = False
        near = tuple(Near(changes, found) for changes, found in self._near.items())
        return Found(tuple(sorted(self._cures, key=rank)), exhausted, near)

    def _deeper(self, changes: Changes, violations: list[Violation], left: int) -> None:
        violation, tried = self._tried(changes, violations, left)
        for change in tried:
            if len(self._cures) >= self.enough:
                return
            more = changes | {change}
            if more in self._seen or self._alike(more) >= _ALIKE:
                continue
            self._seen.add(more)
            found = self._judged(more, violation)
            if found is None:
                continue
            if not found:
                self._cures.append(more)
                self._places[frozenset(each.slot for each in more)] += 1
            elif left > 1 and not any(_untouched(each, violation) for each in found):
                self._deeper(more, found, left - 1)
            else:
                self._near[more] = tuple(found)

    def _alike(self, changes: Changes) -> int:
        """How many cures are known that change the same places."""
        return self._places[frozenset(change.slot for change in changes)]

    def _judged(self, changes: Changes, hot: Violation) -> list[Violation] | None:
        if changes not in self._violations:
            self._violations[changes] = self.bench.violations(
                changes, self.targets, self.relaxed, hot
            )
        return self._violations[changes]

    def _tried(
        self, changes: Changes, violations: list[Violation], left: int
    ) -> tuple[Violation, list[Change]]:
        """The violation that leaves the fewest changes to try next, and these."""
        taken = {change.slot for change in changes}
        ways = []
        for violation in violations[:_LOOKED_AT]:
            near = self.moves.curing(violation, changes)
            ways.append([change for change in near if change.slot not in taken])
        least = min(range(len(ways)), key=lambda place: len(ways[place]))
        chosen = ways[least]
        if left == 1:
            # The last change must be near every violation.
            others = [set(way) for way in ways]
            chosen = [change for change in chosen if all(change in way for way in others)]
        return violations[least], chosen if all(ways) else []


def _untouched(violation: Violation, before: Violation) -> bool:
    """Whether a violation is the same to the last digit: the change does not act on it."""
    one, other = violation.finding, before.finding
    return (
        violation.key == before.key
        and one.condition == other.condition
        and (one.verdict, one.margin, one.reason) == (other.verdict, other.margin, other.reason)
        and (one.margin is not None or bool(one.reason))
    )


#: Cures that are looked for of those that change the same places: the smallest changes.
_ALIKE = 3
#: Violations of which the changes near them are looked up at one step.
_LOOKED_AT = 6
