"""What stands in each connected piece of a network, whole or cut by an event."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable
from typing import NamedTuple

from coordination.network import Network
from coordination.study.outages.cuts import Cuts, Runs, cuts
from coordination.study.outages.events import Event, is_off


class Piece(NamedTuple):
    """Names of what stands in one connected piece, each kind in the order of a walk.

    limited -- current-limited sources; outputs, inputs -- converters with that terminal here
    """

    batteries: tuple[str, ...]
    limited: tuple[str, ...]
    outputs: tuple[str, ...]
    inputs: tuple[str, ...]
    equipment: tuple[str, ...]

    def without(self, lost: frozenset[str]) -> Piece:
        """The piece less sources and converters that are lost."""
        batteries, limited, outputs, inputs = (
            tuple(name for name in names if name not in lost) for names in self[:4]
        )
        return Piece(batteries, limited, outputs, inputs, self.equipment)


class Standing:
    """What stands where, by rank, so that a run of ranks is cut out at once."""

    def __init__(self, network: Network) -> None:
        self.network = network
        branches = network.branches
        self.cuts: Cuts = cuts(
            len(network.points), [(branch.start, branch.end) for branch in branches]
        )
        self.branch_of = {branch.element.name: n for n, branch in enumerate(branches)}
        self._kinds = tuple(self._sorted(kind) for kind in self._by_kind())
        self.base = [self.piece((run,)) for run in self.cuts.runs]

    def _by_kind(self) -> tuple[list[tuple[str, int]], ...]:
        """(name, point) of everything that is in, kind by kind."""
        network = self.network
        converters = network.system.converters
        fed = [
            (each.source.name, each.point)
            for each in network.injections
            if not is_off(each.source.name, network)
        ]
        drawn = [(each.subject.name, each.point) for each in network.draws]
        return (
            [(each.source.name, each.point) for each in network.feeds],
            [each for each in fed if each[0] not in converters],
            [each for each in fed if each[0] in converters],
            [each for each in drawn if each[0] in converters],
            [each for each in drawn if each[0] not in converters],
        )

    def _sorted(self, named: list[tuple[str, int]]) -> tuple[list[int], list[str]]:
        ranked = sorted((self.cuts.rank[point], name) for name, point in named)
        return [rank for rank, _ in ranked], [name for _, name in ranked]

    def piece(self, runs: Runs) -> Piece:
        """What stands within runs of ranks."""
        return Piece(*(tuple(_within(ranks, names, runs)) for ranks, names in self._kinds))

    def sides(self, opened: str) -> tuple[int, Runs, Runs] | None:
        """What opening one closed element parts (see `Cuts.sides`)."""
        return self.cuts.sides(self.branch_of[opened])

    def parted(self, event: Event) -> tuple[dict[int, None], list[Piece]]:
        """Pieces that an event cuts, by number, and what they fall into."""
        if len(event.opened) == 1:
            sides = self.sides(event.opened[0])
            if sides is None:
                return {}, []
            number, *halves = sides
            return {number: None}, [self.piece(half) for half in halves]
        branches = [self.branch_of[name] for name in event.opened]
        ends = self.network.branches
        cut = dict.fromkeys(self.cuts.piece[ends[branch].start] for branch in branches)
        return cut, self._anew(branches, cut)

    def _anew(self, without: Iterable[int], cut: dict[int, None]) -> list[Piece]:
        """Pieces that some pieces fall into, several branches taken out: walked again."""
        if not cut:
            return []
        left, gone = [], set(without)
        for number, branch in enumerate(self.network.branches):
            if number not in gone and self.cuts.piece[branch.start] in cut:
                left.append((branch.start, branch.end))
        again = cuts(len(self.network.points), left)
        found: list[Piece] = []
        for start, stop in again.runs:
            points = again.order[start:stop]
            if self.cuts.piece[points[0]] in cut:
                ranks = sorted(self.cuts.rank[point] for point in points)
                found.append(self.piece(tuple((rank, rank + 1) for rank in ranks)))
        return found


def _within(ranks: list[int], names: list[str], runs: Runs) -> Iterable[str]:
    if not ranks:
        return
    for start, stop in runs:
        yield from names[bisect_left(ranks, start) : bisect_left(ranks, stop)]
