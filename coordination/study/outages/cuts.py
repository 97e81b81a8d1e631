"""What each element, opened alone, parts from what: found for all of them in one walk.

An element that lies in no loop is a bridge: opened, it parts the points walked to through it from
the rest of its piece. A walk that numbers points as it meets them gives those a run of numbers, so
that each side of a bridge is one or two runs. After R. E. Tarjan, A note on finding the bridges of
a graph, Information Processing Letters 2 (1974), 160-161 (from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

#: Half-open runs of ranks.
Runs = tuple[tuple[int, int], ...]


class Cuts(NamedTuple):
    """A network's points by rank, its pieces as runs of ranks, and its bridges.

    rank   -- of each point; order -- the point of each rank
    piece  -- number of the piece of each point; runs -- ranks of each piece
    behind -- branch that is a bridge, to the run of ranks on its far side
    """

    rank: list[int]
    order: list[int]
    piece: list[int]
    runs: list[tuple[int, int]]
    behind: dict[int, tuple[int, int]]

    def sides(self, branch: int) -> tuple[int, Runs, Runs] | None:
        """Number of the piece that opening a branch cuts in two, and both sides; None: in none."""
        if branch not in self.behind:
            return None
        start, stop = self.behind[branch]
        number = self.piece[self.order[start]]
        first, last = self.runs[number]
        return number, ((start, stop),), ((first, start), (stop, last))


def cuts(size: int, ends: Sequence[tuple[int, int]]) -> Cuts:
    """The cuts of a network of `size` points with branches between these ends."""
    around: list[list[tuple[int, int]]] = [[] for _ in range(size)]
    for branch, (one, other) in enumerate(ends):
        around[one].append((branch, other))
        around[other].append((branch, one))
    found = Cuts([-1] * size, [], [-1] * size, [], {})
    low = [0] * size
    for root in range(size):
        if found.rank[root] < 0:
            first = len(found.order)
            _walk(root, len(found.runs), around, found, low)
            found.runs.append((first, len(found.order)))
    return found


def _walk(
    root: int, number: int, around: list[list[tuple[int, int]]], found: Cuts, low: list[int]
) -> None:
    """Number a piece's points; `low` is the least rank that each can get round to."""
    rank, order, piece, _, behind = found
    rank[root] = low[root] = len(order)
    order.append(root)
    piece[root] = number
    stack = [(root, -1, iter(around[root]))]
    while stack:
        point, via, beyond = stack[-1]
        for branch, far in beyond:
            if branch == via:
                continue
            if rank[far] < 0:
                rank[far] = low[far] = len(order)
                order.append(far)
                piece[far] = number
                stack.append((far, branch, iter(around[far])))
                break
            low[point] = min(low[point], rank[far])
        else:
            stack.pop()
            if stack:
                above = stack[-1][0]
                low[above] = min(low[above], low[point])
                if low[point] > rank[above]:
                    behind[via] = (rank[point], len(order))
