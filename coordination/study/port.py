"""What the rest of a network looks like from a point, as steps that can be checked by hand.

Seen from a point, any network of batteries is one open-circuit voltage behind one resistance. On a
tree that is a sum of resistances along the way to a source, and parallel sums where several sources
meet. In a loop it is the solver's result, named as such.
"""

from __future__ import annotations

from functools import cached_property

from coordination.network import Network
from coordination.study.combine import KIRCHHOFF, NODAL, Port, parallel, series, summed
from coordination.study.deferred import renamed
from coordination.study.figures import Figures, number
from coordination.trace import Derived, Value

#: More sources than this on one side are shown as one solved network.
READABLE = 24


class Ports:
    """The view from points of one network in one bound."""

    def __init__(self, figures: Figures, *, largest: bool) -> None:
        self.figures, self.largest = figures, largest
        self.network: Network = figures.network
        self.faults = figures.most if largest else figures.least
        self._kept: dict[tuple[int, int], Port] = {}
        self._loops: dict[int, Derived] = {}
        self._inlets: dict[int, list[int]] = {}

    @cached_property
    def around(self) -> list[list[int]]:
        """Branches at each point."""
        around: list[list[int]] = [[] for _ in self.network.points]
        for position, branch in enumerate(self.network.branches):
            around[branch.start].append(position)
            around[branch.end].append(position)
        return around

    def at(self, point: int, without: int = -1) -> Port:
        """The network seen from a point, one branch taken out."""
        inlets = self._at(point)
        key = (point, without if without in inlets else -1)
        if key not in self._kept:
            self._kept[key] = self._see(point, key[1])
        return self._kept[key]

    def _at(self, point: int) -> list[int]:
        """Branches at a point behind which a source stands."""
        if point not in self._inlets:
            self._inlets[point] = [b for b in self.around[point] if self._fed_from(point, b)]
        return self._inlets[point]

    def _fed_from(self, point: int, branch: int) -> bool:
        shape = self.figures.shape
        if branch in shape.chain_with:
            return True
        leaf = shape.leaves[self.figures.position[branch]]
        counts, sums = (
            (shape.sources, shape.island_sources)
            if self.largest
            else (shape.batteries, shape.island_batteries)
        )
        return (sums[shape.island[leaf]] - counts[leaf] if leaf == point else counts[leaf]) > 0

    def _see(self, point: int, without: int) -> Port:
        """Follow single inlets outwards to where sources meet, then add what lies on the way."""
        way: list[int] = []
        while True:
            own = self._own(point)
            inlets = [b for b in self._at(point) if b != without]
            if own or len(inlets) != 1 or self._in_loop(point):
                break
            way.append(inlets[0])
            point, without = self._beyond(point, inlets[0]), inlets[0]
        if self._in_loop(point) or self._many(point, without):
            port = self._solved(point, without)
        else:
            port = self._meet([*own, *(self.behind(point, b) for b in inlets)])
        for branch in reversed(way):
            port = self._through(port, branch)
        return port

    def behind(self, point: int, branch: int) -> Port:
        """What a branch of a tree brings to a point from beyond it."""
        return self._through(self.at(self._beyond(point, branch), branch), branch)

    def _through(self, port: Port, branch: int) -> Port:
        """A port with one more branch before it; current alone passes any resistance unchanged."""
        if port.emf is None:
            return port
        term = self.loop(branch)
        if not term.value:
            return port
        if port.current is not None:
            port = self._joined([port])
        return Port(port.emf, (*port.terms, renamed(term, f"R_{len(port.terms) + 1}")))

    def _meet(self, ports: list[Port]) -> Port:
        if not ports:
            return Port()
        held = [port for port in ports if port.emf is not None]
        if len(ports) == 1:
            return ports[0]
        if len(held) > 1:
            return self._joined(ports)
        current = summed(
            [p.current for p in ports if p.current is not None], "injected current", "I", "A"
        )
        return Port(held[0].emf, held[0].terms, current) if held else Port(current=current)

    def _joined(self, ports: list[Port]) -> Port:
        """Sources in parallel, and currents fed in, as one voltage behind one resistance."""
        held = [port for port in ports if port.emf is not None]
        emfs = [renamed(p.emf, f"E_{n}") for n, p in enumerate(held, 1) if p.emf is not None]
        paths = [renamed(series(p.terms), f"R_{n}") for n, p in enumerate(held, 1)]
        currents = [p.current for p in ports if p.current is not None]
        currents = [renamed(c, f"I_{n}") for n, c in enumerate(currents, 1)]
        together = parallel(paths)
        if not currents and len({emf.value for emf in emfs}) == 1:
            return Port(renamed(emfs[0], "E"), (renamed(together, "R_1"),))
        parts = [f"{e.symbol} / {r.symbol}" for e, r in zip(emfs, paths, strict=True)]
        value = sum(e.value / r.value for e, r in zip(emfs, paths, strict=True))
        value += sum(c.value for c in currents)
        formula = f"({' + '.join([*parts, *(c.symbol for c in currents)])}) × R"
        emf = Derived(
            "open-circuit voltage of the sources together",
            "E",
            value * together.value,
            "V",
            formula,
            (*emfs, *paths, *currents, renamed(together, "R")),
            KIRCHHOFF,
        )
        return Port(emf, (renamed(together, "R_1"),))

    def _solved(self, point: int, without: int) -> Port:
        """The view as the solver gives it."""
        conductance, short = self.faults.conductance[point], self.faults.short[point]
        shape = self.figures.shape
        if without >= 0:
            position = self.figures.position[without]
            leaf = shape.leaves[position]
            conductance, short = (
                (self.faults.solved.conductance[leaf], self.faults.current[leaf])
                if leaf == point
                else self.faults.toward[position]
            )
        words = f"network solution, {len(self.network.points)} points"
        if not conductance:
            return Port(
                current=Derived(
                    f"current of limited sources: {words}", "I", short, "A", source=NODAL
                )
            )
        emf = Derived(f"open-circuit voltage: {words}", "E", short / conductance, "V", source=NODAL)
        ohms = Derived(
            f"resistance of the sources' side: {words}", "R_1", 1.0 / conductance, "Ω", source=NODAL
        )
        return Port(emf, (ohms,))

    def _own(self, point: int) -> list[Port]:
        """Sources that stand at a point."""
        return self._standing.get(point, [])

    @cached_property
    def _standing(self) -> dict[int, list[Port]]:
        found: dict[int, list[Port]] = {}
        for feed in self.network.feeds:
            emf = feed.emf_high if self.largest else feed.emf_low
            ohms = feed.resistance_low if self.largest else feed.resistance_high
            if isinstance(emf, Derived) and isinstance(ohms, Derived):
                port = Port(emf, (renamed(ohms, "R_1"),))
                found.setdefault(feed.point, []).append(port)
        for injection in self.network.injections if self.largest else ():
            if isinstance(injection.limit, Derived):
                found.setdefault(injection.point, []).append(Port(current=injection.limit))
        return found

    def loop(self, branch: int) -> Derived:
        """Loop resistance [Ω] of a branch in this bound, with its derivation."""
        if branch not in self._loops:
            element = self.network.branches[branch].element
            loops = self.network.loops
            value: Value = loops.low(element) if self.largest else loops.high(element)
            self._loops[branch] = (
                value
                if isinstance(value, Derived)
                else Derived(value.quantity, "R", number(value), "Ω")
            )
        return self._loops[branch]

    def _in_loop(self, point: int) -> bool:
        shape = self.figures.shape
        return point in shape.chain_of or point in self.faults.solved.row_of

    def _many(self, point: int, without: int) -> bool:
        """Whether more sources stand on this side than anybody would follow."""
        shape = self.figures.shape
        sources = shape.island_sources[shape.island[point]]
        if sources <= READABLE:
            return False
        if without >= 0:
            leaf = shape.leaves[self.figures.position[without]]
            sources = shape.sources[leaf] if leaf == point else sources - shape.sources[leaf]
        return sources > READABLE

    def way(self, start: int, end: int) -> list[tuple[int, int]] | None:
        """Branches of a tree from one point to another, +1 where drawn in that direction."""
        shape = self.figures.shape
        if any(
            point in shape.chain_of or point in self.faults.solved.row_of for point in (start, end)
        ):
            return None
        position_of = self._position_of
        ways: list[list[tuple[int, int]]] = []
        trails: list[dict[int, int]] = []
        for point in (start, end):
            steps: list[tuple[int, int]] = []
            trail = {point: 0}
            while point in position_of:
                via = shape.vias[position_of[point]]
                steps.append((via, 1 if shape.start[via] == point else -1))
                point = shape.parents[position_of[point]]
                trail[point] = len(steps)
            if point not in shape.roots and shape.core:
                return None
            ways.append(steps)
            trails.append(trail)
        meeting = next((point for point in trails[0] if point in trails[1]), None)
        if meeting is None:
            return None
        down = [(via, -sign) for via, sign in ways[1][: trails[1][meeting]]]
        return ways[0][: trails[0][meeting]] + down[::-1]

    @cached_property
    def _position_of(self) -> dict[int, int]:
        return {leaf: position for position, leaf in enumerate(self.figures.shape.leaves)}

    def _beyond(self, point: int, branch: int) -> int:
        ends = self.network.branches[branch]
        return ends.end if ends.start == point else ends.start
