"""The least current through an element for a fault anywhere in what it protects.

What it protects are the points beyond it up to the next devices. Where only one side is fed, all
that flows to such a fault comes through the element, and the least fault current of the zone is it.
Where both are, part of it comes from elsewhere, and both sides are zones; then only those faults
count to which current flows through the element: others are cleared from elsewhere.
"""

from __future__ import annotations

from functools import cached_property

from catalogue.frozen import dataclass
from coordination.study.figures import Figures
from coordination.study.reach import Reach

#: Share of a fault's current below which nothing is said to flow through an element.
ROUNDING = 1e-6


@dataclass(frozen=True, slots=True)
class Weakest:
    """The least current [A] through an element, for a fault at `point` (-1: it carries none)."""

    current: float
    point: int


class Zones:
    """The zones of one network in the min bound."""

    def __init__(self, figures: Figures, reach: Reach) -> None:
        self.figures, self.reach = figures, reach
        self.network = figures.network
        self._hung: dict[int, dict[int, int]] = {}
        self._sides: dict[int, tuple[bool, bool]] = {}

    def weakest(self, branch: int) -> Weakest:
        """The least current through a branch over the faults that it must clear."""
        shape = self.figures.shape
        island = shape.island[shape.start[branch]]
        if not shape.island_batteries[island]:
            return Weakest(0.0, -1)
        if not self.one_way(branch):
            return self._in_chain(branch) if branch in shape.chain_with else self._between(branch)
        return self._one_way(branch)

    def beyond(self, branch: int, forward: bool) -> Weakest:
        """As `weakest`, for the faults beyond the branch's end (`forward`) or its start alone."""
        shape = self.figures.shape
        if self.one_way(branch) or not shape.island_batteries[shape.island[shape.start[branch]]]:
            return self.weakest(branch)
        if branch in shape.chain_with:
            return self._in_chain(branch, 1 if forward else -1)
        return self._between(branch, shape.end[branch] if forward else shape.start[branch])

    def one_way(self, branch: int) -> bool:
        """Whether a battery stands on one side of a branch only."""
        if branch not in self._sides:
            self._sides[branch] = self.reach.batteries_beside(branch)
        return not all(self._sides[branch])

    def points(self, branch: int) -> list[int]:
        """The points whose faults the branch must clear."""
        ends = self.network.branches[branch]
        if self.one_way(branch):
            far = ends.end if self._sides[branch][0] else ends.start
            return list(self.reach.zone(far, branch).lengths)
        points = dict.fromkeys(self.reach.zone(ends.start, branch).lengths)
        points.update(dict.fromkeys(self.reach.zone(ends.end, branch).lengths))
        return list(points)

    def _one_way(self, branch: int) -> Weakest:
        shape, short = self.figures.shape, self.figures.least.short
        if shape.core:
            point = min(self.points(branch), key=short.__getitem__)
        else:
            position = self.figures.position[branch]
            inwards, outwards = self._weakest_points
            leaf = shape.leaves[position]
            point = outwards[position] if shape.batteries[leaf] else inwards[leaf]
        return Weakest(short[point], point)

    @cached_property
    def _weakest_points(self) -> tuple[list[int], list[int]]:
        """On a tree: the zone's weakest point at and behind each leaf, and ahead of each.

        Each point keeps the two best of what it can reach, so that one branch can be left out.
        """
        shape, short = self.figures.shape, self.figures.least.short
        protective = self.reach.protective
        own = list(range(shape.size))
        best: list[tuple[int, int]] = [(-1, -1)] * shape.size
        inwards = list(own)

        def offer(point: int, candidate: int, came: int) -> None:
            weakest = inwards[point]
            if short[candidate] < short[weakest]:
                second = weakest if best[point][0] >= 0 else -1
                inwards[point], best[point] = candidate, (came, second)
            elif best[point][0] >= 0:
                second = best[point][1]
                if second < 0 or short[candidate] < short[second]:
                    best[point] = (best[point][0], candidate)

        def without(point: int, came: int) -> int:
            if best[point][0] != came:
                return inwards[point]
            second = best[point][1]
            return point if second < 0 or short[point] <= short[second] else second

        for leaf, parent, via in zip(shape.leaves, shape.parents, shape.vias, strict=True):
            if not protective[via]:
                offer(parent, inwards[leaf], leaf)
        behind = list(inwards)
        outwards = [-1] * len(shape.leaves)
        for position in range(len(shape.leaves) - 1, -1, -1):
            leaf, parent = shape.leaves[position], shape.parents[position]
            outwards[position] = without(parent, leaf)
            if not protective[shape.vias[position]]:
                offer(leaf, outwards[position], parent)
        return behind, outwards

    def _between(self, branch: int, only: int = -1) -> Weakest:
        """A branch whose removal parts two fed sides: each side's faults are fed by the other.

        only -- the one end whose side's faults count; -1: both
        """
        figures, position = self.figures, self.figures.position[branch]
        faults, solved = figures.least, figures.high
        leaf, parent = figures.shape.leaves[position], figures.shape.parents[position]
        resistance = solved.resistance[branch]
        best = Weakest(float("inf"), -1)
        toward = faults.toward[position]
        sides = (
            (parent, solved.conductance[leaf], faults.current[leaf]),
            (leaf, *toward),
        )
        for start, conductance, current in sides:
            if only not in (-1, start):
                continue
            column, voltage = figures.column(start), faults.short[start] / faults.conductance[start]
            part = 1.0 / (1.0 + resistance * conductance)
            for point in self.reach.zone(start, branch).lengths:
                left = voltage - column[point] * faults.short[point]
                through = (current - conductance * left) * part
                if ROUNDING * faults.short[point] < through < best.current:
                    best = Weakest(through, point)
        return best if best.point >= 0 else Weakest(0.0, -1)

    def _in_chain(self, branch: int, only: int = 0) -> Weakest:
        """A branch of a loop: what flows through it before the fault less what the fault shifts.

        only -- +1 faults beyond its end alone, -1 beyond its start, 0 both
        """
        figures, shape = self.figures, self.figures.shape
        faults, solved = figures.least, figures.high
        number = shape.chain_with[branch]
        chain, total, places = shape.chains[number], solved.totals[number], solved.places[number]
        at = chain.branches.index(branch)
        head, tail = figures.column(chain.head), figures.column(chain.tail)
        voltage = [faults.short[j] / faults.conductance[j] for j in (chain.head, chain.tail)]
        before = (voltage[0] - voltage[1]) / total
        hung = self._hung_on(number)
        best = Weakest(float("inf"), -1)
        for point, direction in self._toward(branch):
            if only not in (0, direction):
                continue
            shift = (head[point] - tail[point]) / total
            if point in hung:
                position = hung[point]
                place = places[position]
                # Trees hung inside a chain have no source: all of the fault comes by the chain.
                shift -= ((total - place) if at <= position else -place) / total
            through = before - shift * faults.short[point]
            through *= direction if chain.forward[at] else -direction
            if ROUNDING * faults.short[point] < through < best.current:
                best = Weakest(through, point)
        return best if best.point >= 0 else Weakest(0.0, -1)

    def _toward(self, branch: int) -> list[tuple[int, int]]:
        """Points beyond a branch, +1 those beyond its end and -1 those beyond its start."""
        ends = self.network.branches[branch]
        beyond = [(point, 1) for point in self.reach.zone(ends.end, branch).lengths]
        return beyond + [(point, -1) for point in self.reach.zone(ends.start, branch).lengths]

    def _hung_on(self, number: int) -> dict[int, int]:
        """Points of a chain, and of the trees that hang on it, to the place along the chain."""
        if number in self._hung:
            return self._hung[number]
        shape = self.figures.shape
        found = {point: place for place, point in enumerate(shape.chains[number].nodes)}
        for leaf, parent in zip(reversed(shape.leaves), reversed(shape.parents), strict=True):
            if parent in found:
                found[leaf] = found[parent]
        self._hung[number] = found
        return found
