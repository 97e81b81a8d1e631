"""Which results are unknown, and for want of what."""

from __future__ import annotations

from functools import cached_property

from coordination.study.blocks import Blocks
from coordination.study.figures import Figures
from coordination.study.loads import Loads
from coordination.trace import Unknown, unknowns

Phrases = tuple[str, ...]


class Doubts:
    """What is missing for each result of one network; empty: nothing."""

    def __init__(self, figures: Figures, loads: Loads) -> None:
        self.figures, self.loads = figures, loads
        self.network = figures.network
        self._ways: dict[tuple[str, int], Phrases] = {}

    @cached_property
    def blocks(self) -> Blocks:
        """The network's blocks; ties: batteries, and limited sources where there is no battery."""
        ties = [feed.point for feed in self.network.feeds]
        ties += [
            i.point
            for i in self.network.injections
            if self.figures.shape.island[i.point] in self.figures.stand_ins
        ]
        ends = [(branch.start, branch.end) for branch in self.network.branches]
        return Blocks(len(self.network.points), ends, ties)

    @cached_property
    def strongest(self) -> dict[int, Phrases]:
        """What is missing for the max bound, by island: any source may add to any fault."""
        found: dict[int, Phrases] = {}
        island = self.figures.shape.island
        for feed in self.network.feeds:
            missing = unknowns((feed.emf_high, feed.resistance_low))
            if missing:
                found[island[feed.point]] = found.get(island[feed.point], ()) + missing
        for injection in self.network.injections:
            if isinstance(injection.limit, Unknown):
                number = island[injection.point]
                found[number] = found.get(number, ()) + injection.limit.missing
        return found

    @cached_property
    def resistive(self) -> dict[int, Phrases]:
        """What is missing for the min bound, by block."""
        found: dict[int, dict[str, None]] = {}
        for number, branch in enumerate(self.network.branches):
            if branch.missing:
                block = self.blocks.of_edge[number]
                found.setdefault(block, {}).update(dict.fromkeys(branch.missing))
        for number, feed in enumerate(self.network.feeds, len(self.network.branches)):
            missing = unknowns((feed.emf_low, feed.resistance_high))
            if missing:
                block = self.blocks.of_edge[number]
                found.setdefault(block, {}).update(dict.fromkeys(missing))
        return {block: tuple(phrases) for block, phrases in found.items()}

    @cached_property
    def inductive(self) -> dict[int, Phrases]:
        """What is missing for the inductance, by block."""
        found: dict[int, dict[str, None]] = {}
        for number, branch in enumerate(self.network.branches):
            if branch.uncoupled:
                block = self.blocks.of_edge[number]
                found.setdefault(block, {}).update(dict.fromkeys(branch.uncoupled))
        return {block: tuple(phrases) for block, phrases in found.items()}

    @cached_property
    def drawn(self) -> dict[int, Phrases]:
        """What is missing for the currents drawn and injected, by block on their way."""
        found: dict[int, dict[str, None]] = {}
        wanted = [(draw.point, draw.current) for draw in self.network.draws]
        wanted += [(injection.point, injection.limit) for injection in self.network.injections]
        for point, current in wanted:
            if isinstance(current, Unknown):
                for block in self.blocks.way(point):
                    found.setdefault(block, {}).update(dict.fromkeys(current.missing))
        return {block: tuple(phrases) for block, phrases in found.items()}

    def fault_max(self, point: int) -> Phrases:
        """For the largest fault current at a point."""
        return self.strongest.get(self.figures.shape.island[point], ())

    def fault_min(self, point: int) -> Phrases:
        """For the least fault current at a point."""
        return self._on_way("resistive", point) if self.resistive else ()

    def time_constant(self, point: int) -> Phrases:
        """For the time constant at a point."""
        return self.fault_max(point) + (self._on_way("inductive", point) if self.inductive else ())

    def voltage(self, point: int) -> Phrases:
        """For the voltage under load at a point."""
        missing = self.fault_min(point)
        if self.drawn:
            missing += self._on_way("drawn", point)
        island = self.figures.shape.island[point]
        over = self.loads.overdrawn.get(island)
        unheld = tuple(
            phrase
            for i in self.network.injections
            if island in self.figures.stand_ins
            and self.figures.shape.island[i.point] == island
            and isinstance(i.voltage, Unknown)
            for phrase in i.voltage.missing
        )
        return missing + unheld + ((over,) if over else ())

    def drop(self, point: int) -> Phrases:
        """For the voltage lost between the source's terminals and a point."""
        way = list(self.blocks.way(point))
        if way and self._is_tie(way[-1]):
            way.pop()
        missing: Phrases = ()
        for block in way:
            missing += self.resistive.get(block, ()) + self.drawn.get(block, ())
        over = self.loads.overdrawn.get(self.figures.shape.island[point])
        return tuple(dict.fromkeys(missing)) + ((over,) if over else ())

    def load(self, branch: int) -> Phrases:
        """For the design current of a branch."""
        missing: Phrases = ()
        if self.resistive and not self.blocks.single(branch):
            missing += self.resistive.get(self.blocks.of_edge[branch], ())
        if self.drawn:
            missing += self.drawn.get(self.blocks.of_edge[branch], ())
        over = self.loads.overdrawn.get(self.figures.shape.island[self.figures.shape.start[branch]])
        return missing + ((over,) if over else ()) + self.undefined.get(branch, ())

    def sharing(self, branch: int) -> Phrases:
        """For how a branch shares what is drawn with others beside it."""
        if self.blocks.single(branch):
            return ()
        return self.resistive.get(self.blocks.of_edge[branch], ()) + self.undefined.get(branch, ())

    def tie(self, feed: int) -> Phrases:
        """For the design current of a battery."""
        edge = len(self.network.branches) + feed
        block = self.blocks.of_edge[edge]
        shared = () if self.blocks.single(edge) else self.resistive.get(block, ())
        return shared + self.drawn.get(block, ())

    @cached_property
    def undefined(self) -> dict[int, Phrases]:
        """Branches in a loop that has no resistance at all: nothing says how they share."""
        bare = [
            n
            for n, branch in enumerate(self.network.branches)
            if branch.high == 0.0 and not branch.missing
        ]
        ends = [(self.figures.shape.start[n], self.figures.shape.end[n]) for n in bare]
        if not _has_loop(ends):
            return {}
        blocks = Blocks(len(self.network.points), ends, ())
        found: dict[int, Phrases] = {}
        for block in blocks.blocks:
            if len(block.edges) > 1:
                names = ", ".join(
                    sorted(self.network.branches[bare[e]].element.name for e in block.edges)
                )
                for edge in block.edges:
                    found[bare[edge]] = (f"how {names} share: none has a resistance",)
        return found

    def _is_tie(self, block: int) -> bool:
        edges = self.blocks.blocks[block].edges
        return len(edges) == 1 and edges[0] >= len(self.network.branches)

    def _on_way(self, what: str, point: int) -> Phrases:
        """All that is missing in the blocks between the sources and a point."""
        fresh: list[int] = []
        phrases: Phrases = ()
        for block in self.blocks.way(point):
            known = self._ways.get((what, block))
            if known is not None:
                phrases = known
                break
            fresh.append(block)
        here: dict[int, Phrases] = getattr(self, what)
        for block in reversed(fresh):
            if block in here:
                phrases = tuple(dict.fromkeys(phrases + here[block]))
            self._ways[what, block] = phrases
        return phrases


def _has_loop(ends: list[tuple[int, int]]) -> bool:
    """Whether edges close a loop."""
    above: dict[int, int] = {}

    def top(point: int) -> int:
        while above.setdefault(point, point) != point:
            above[point] = above[above[point]]
            point = above[point]
        return point

    for one, other in ends:
        first, second = top(one), top(other)
        if first == second:
            return True
        above[first] = second
    return False
