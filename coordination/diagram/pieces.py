"""Cuts a system at its bars into pieces that each fit on a sheet."""

from __future__ import annotations

from collections.abc import Callable

from coordination.diagram.block import Layout
from coordination.diagram.build import Piece, split
from coordination.diagram.plan import Plan

#: Gives a piece of a plan, laid out.
Lay = Callable[[Plan, Piece], Layout]

#: Chains beyond which a piece is not even tried: it would never fit, and take long.
_MANY = 48


class Cutter:
    """Cuts one plan for a room of a width and height [px]."""

    def __init__(self, plan: Plan, room: tuple[float, float], lay: Lay) -> None:
        self.plan, self._room, self._lay = plan, room, lay
        self._tried: dict[tuple[str, ...], tuple[float, float]] = {}

    def pieces(self) -> tuple[Piece, ...]:
        """The pieces; `plan` then is the plan with its long bars continued."""
        waiting = list(self.whole())
        done: list[Piece] = []
        while waiting:
            piece = waiting.pop(0)
            if self._fits(piece):
                done.append(piece)
            elif cut := self._cut(piece):
                waiting[:0] = cut
            else:
                done.append(piece)
        return tuple(sorted(done, key=lambda piece: self._place(piece.bars[0])))

    def whole(self) -> tuple[Piece, ...]:
        """The pieces that the system consists of, uncut."""
        return tuple(self._piece(group) for group in self._joined())

    def few(self) -> bool:
        """Whether the whole is worth trying on one sheet."""
        return all(self._lanes(piece) <= _MANY for piece in self.whole())

    def _place(self, bar: str) -> int:
        return list(self.plan.bars).index(bar)

    def _joined(self) -> list[tuple[str, ...]]:
        """Bars that are joined, whatever way."""
        group = {key: {key} for key in self.plan.bars}
        for edge in self.plan.graph.edges:
            if edge.start in group and edge.end in group:
                both = group[edge.start] | group[edge.end]
                for key in both:
                    group[key] = both
        unique = {id(each): each for each in group.values()}
        return [tuple(key for key in self.plan.bars if key in each) for each in unique.values()]

    def _piece(self, bars: tuple[str, ...]) -> Piece:
        """A piece; its roots in the plan's order, then bars that hang on none of it."""
        inside = set(bars)
        hanging = {
            key for key in bars if key in self.plan.parent and self.plan.parent[key][0] in inside
        }
        known = [key for key in self.plan.roots if key in inside]
        roots = dict.fromkeys([*known, *(key for key in bars if key not in hanging)])
        return Piece(bars, tuple(roots))

    def _fits(self, piece: Piece) -> bool:
        width, height = self._size(piece)
        return width <= self._room[0] and height <= self._room[1]

    def _size(self, piece: Piece) -> tuple[float, float]:
        if piece.bars not in self._tried:
            many = self._lanes(piece)
            size = (many * 1e3, 1e4)
            if many <= _MANY:
                layout = self._lay(self.plan, piece)
                size = (layout.width, layout.height)
            self._tried[piece.bars] = size
        return self._tried[piece.bars]

    def _lanes(self, piece: Piece) -> int:
        inside = set(piece.bars)
        return sum(edge.start in inside or edge.end in inside for edge in self.plan.graph.edges)

    def _cut(self, piece: Piece) -> list[Piece]:
        """The piece without one branch, and that branch; else its one bar in two."""
        branches = [branch for key in piece.bars if (branch := self._branch(piece, key))]
        if branches:
            best = max(branches, key=lambda branch: self._worth(piece, branch))
            rest = tuple(key for key in piece.bars if key not in best)
            return [self._piece(rest), self._piece(best)]
        wide = self._size(piece)[0] > self._room[0]
        return self._continued(piece.bars[0]) if wide and len(piece.bars) == 1 else []

    def _branch(self, piece: Piece, key: str) -> tuple[str, ...]:
        """A bar and what hangs on it in the piece, if that is not all of it."""
        inside = set(piece.bars)
        below = set(self.plan.below(key)) & inside
        return tuple(each for each in piece.bars if each in below) if below != inside else ()

    def _worth(self, piece: Piece, branch: tuple[str, ...]) -> tuple[bool, bool, int]:
        """Best is a branch that fits and leaves what fits, then the largest that fits."""
        own = self._fits(self._piece(branch))
        rest = self._piece(tuple(key for key in piece.bars if key not in branch))
        return own and self._fits(rest), own, self._lanes(self._piece(branch)) if own else 0

    def _continued(self, bar: str) -> list[Piece]:
        """A bar that is too long as several, each with its share of what hangs on it.

        What is too high would be so in any share: its sheet grows.
        """
        below = [
            edge.name
            for edge in self.plan.graph.edges
            if self.plan.tops[edge.name] == bar
        ]
        whole, found = self.plan, list[Piece]()
        for parts in range(2, len(below) + 1):
            size = -(-len(below) // parts)
            groups = [below[at : at + size] for at in range(0, len(below), size)]
            self.plan, self._tried = split(whole, bar, groups[1:]), {}
            keys = [key for key in self.plan.bars if key == bar or key not in whole.bars]
            found = [self._piece((key,)) for key in keys]
            if all(self._size(piece)[0] <= self._room[0] for piece in found):
                return found
        return found
