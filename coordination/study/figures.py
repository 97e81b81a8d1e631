"""The numbers of one network: faults in both bounds, duties, design currents, time constants.

Everything is worked out when first asked for, and kept. What is unknown counts 0 here (a battery's
resistance 1 mΩ); `blocks` knows which of these numbers may not be used.
"""

from __future__ import annotations

from functools import cached_property

from coordination.network import Network
from coordination.study.solve import Faults, Solved
from coordination.study.topology import Topology, survey
from coordination.trace import Derived, Value

#: Resistance [Ω] standing in for a battery's that is not known; results are not used.
STAND_IN = 1e-3
#: Share by which inductance is let raise resistance to find the rate at which impedance grows.
NUDGE = 1e-6


class Figures:
    """Numbers by point and by branch of one network."""

    def __init__(self, network: Network) -> None:
        self.network = network
        branches = network.branches
        self.shape: Topology = survey(
            len(network.points),
            [branch.start for branch in branches],
            [branch.end for branch in branches],
            [feed.point for feed in network.feeds],
            [injection.point for injection in network.injections],
        )
        self.branch_of = {branch.element.name: number for number, branch in enumerate(branches)}
        self._columns: dict[tuple[bool, int], list[float]] = {}

    @cached_property
    def low(self) -> Solved:
        """The network of the max bound."""
        shunts = [
            (feed.point, 1.0 / number(feed.resistance_low, STAND_IN)) for feed in self.network.feeds
        ]
        return Solved(self.shape, [branch.low for branch in self.network.branches], shunts)

    @cached_property
    def high(self) -> Solved:
        """The network of the min bound, which is also that of the loads."""
        shunts = [
            (feed.point, 1.0 / number(feed.resistance_high, STAND_IN))
            for feed in self.network.feeds
        ]
        shunts += [(point, 1.0) for point in self.stand_ins.values()]
        return Solved(self.shape, [branch.high for branch in self.network.branches], shunts)

    @cached_property
    def stand_ins(self) -> dict[int, int]:
        """Islands fed by limited sources only, each with the point that its voltages refer to.

        A 1 S shunt there carries no current, because what such sources give is what is drawn.
        """
        found: dict[int, int] = {}
        for injection in self.network.injections:
            island = self.shape.island[injection.point]
            if not self.shape.island_batteries[island]:
                found.setdefault(island, injection.point)
        return found

    @cached_property
    def most(self) -> Faults:
        """Faults in the max bound."""
        fed = [
            (feed.point, number(feed.emf_high) / number(feed.resistance_low, STAND_IN))
            for feed in self.network.feeds
        ]
        fed += [(injection.point, number(injection.limit)) for injection in self.network.injections]
        return Faults(self.low, fed)

    @cached_property
    def least(self) -> Faults:
        """Faults in the min bound: batteries only."""
        return Faults(self.high, self.emptied)

    @cached_property
    def emptied(self) -> list[tuple[int, float]]:
        """Batteries at low charge as currents [A] beside their conductances."""
        return [
            (feed.point, number(feed.emf_low) / number(feed.resistance_high, STAND_IN))
            for feed in self.network.feeds
        ]

    @cached_property
    def inductance(self) -> list[float]:
        """Thevenin inductance [H] at every point: how fast impedance grows with frequency."""
        branches = self.network.branches
        total = sum(branch.inductance for branch in branches)
        if not total:
            return [0.0] * self.shape.size
        step = NUDGE * (sum(branch.low for branch in branches) or 1.0) / total
        shunts = [
            (feed.point, 1.0 / number(feed.resistance_low, STAND_IN)) for feed in self.network.feeds
        ]
        nudged = Solved(self.shape, [b.low + step * b.inductance for b in branches], shunts)
        more = Faults(nudged, ())
        return [
            (1.0 / after - 1.0 / before) / step if before and after else 0.0
            for before, after in zip(self.most.conductance, more.conductance, strict=True)
        ]

    def column(self, at: int, *, high: bool = True) -> list[float]:
        """Voltage [V] at every point per ampere fed in at one."""
        key = (high, at)
        if key not in self._columns:
            solved = self.high if high else self.low
            self._columns[key] = solved.voltages(solved.gather([(at, 1.0)]))
        return self._columns[key]

    def sides(self, branch: int, place: float | None = None) -> tuple[float, float]:
        """Current [A] arriving at start and at end, both ends shorted, the branch taken out.

        place -- share of the branch from its start: the fault lies there, fed through what is left
        """
        shape, faults = self.shape, self.most
        own = 0.0 if place is None else self.low.resistance[branch]
        near, far = own * (place or 0.0), own * (1.0 - (place or 0.0))
        if branch in shape.chain_with:
            return self._chain_sides(branch, near, far)
        position = self.position[branch]
        leaf = shape.leaves[position]
        behind = (self.low.conductance[leaf], faults.current[leaf])
        ahead = faults.toward[position]
        start, end = (behind, ahead) if shape.start[branch] == leaf else (ahead, behind)
        return start[1] / (1.0 + near * start[0]), end[1] / (1.0 + far * end[0])

    @cached_property
    def position(self) -> dict[int, int]:
        """Branch of a tree to its place in the order of peeling."""
        return {via: position for position, via in enumerate(self.shape.vias)}

    def _chain_sides(self, branch: int, near: float, far: float) -> tuple[float, float]:
        """As `sides`, for a branch in a loop: what is left of its chain hangs on both junctions."""
        shape, faults, solved = self.shape, self.most, self.low
        number_ = shape.chain_with[branch]
        chain, total = shape.chains[number_], solved.totals[number_]
        if not shape.island_batteries[shape.island[chain.head]]:
            limit = faults.short[chain.head]
            return limit, limit
        at = chain.branches.index(branch)
        before = solved.places[number_][at - 1] if at else 0.0
        after = sum(solved.resistance[b] for b in chain.branches[at + 1 :])
        before += near if chain.forward[at] else far
        after += far if chain.forward[at] else near
        head, tail = solved.row_of[chain.head], solved.row_of[chain.tail]
        inverse = solved.factor.inverse()
        if head == tail:
            one, other = _lasso(
                faults.short[chain.head], faults.conductance[chain.head], before, after
            )
        else:
            one, other = _two_ports(
                (inverse[head][head], inverse[head][tail], inverse[tail][tail]),
                (
                    faults.short[chain.head] * inverse[head][head],
                    faults.short[chain.tail] * inverse[tail][tail],
                ),
                total,
                before,
                after,
            )
        return (one, other) if chain.forward[at] else (other, one)

    def across(self, one: int, other: int) -> tuple[float, float]:
        """Current [A] arriving at each of two points, both shorted, nothing between them."""
        shape, faults = self.shape, self.most
        island = shape.island[one]
        if island != shape.island[other] or not shape.island_batteries[island]:
            return faults.short[one], faults.short[other]
        between = self.column(one, high=False)[other]
        here, there = 1.0 / faults.conductance[one], 1.0 / faults.conductance[other]
        spread = here * there - between * between
        if spread <= 1e-12 * here * there:
            return faults.short[one], faults.short[other]
        voltage, far = faults.short[one] * here, faults.short[other] * there
        return (
            (there * voltage - between * far) / spread,
            (here * far - between * voltage) / spread,
        )


def number(value: Value, instead: float = 0.0) -> float:
    """The number in a value, or what stands in for it."""
    return value.value if isinstance(value, Derived) else instead


def _lasso(short: float, conductance: float, before: float, after: float) -> tuple[float, float]:
    """Currents through two resistances from one point to ground."""
    if before == 0.0 or after == 0.0:
        return (short if before == 0.0 else 0.0, short if after == 0.0 else 0.0)
    voltage = short / (conductance + 1.0 / before + 1.0 / after)
    return voltage / before, voltage / after


def _two_ports(
    inverse: tuple[float, float, float],
    voltage: tuple[float, float],
    total: float,
    before: float,
    after: float,
) -> tuple[float, float]:
    """Currents to ground at head and tail through `before` and `after`, the chain taken out.

    With Y the conductances seen at both (the inverse's inverse) without the chain, and both
    shorted, J = Y V flows; through r it is I with (1 + Y r) I = J, which is exact at r = 0.
    """
    here, both, there = inverse
    spread = here * there - both * both
    one, other, mutual = there / spread, here / spread, -both / spread
    first = one * voltage[0] + mutual * voltage[1]
    second = other * voltage[1] + mutual * voltage[0]
    cut = 1.0 / total
    one, other, mutual = max(one - cut, 0.0), max(other - cut, 0.0), min(mutual + cut, 0.0)
    a, b = 1.0 + one * before, mutual * after
    c, d = mutual * before, 1.0 + other * after
    determinant = a * d - b * c
    return (d * first - b * second) / determinant, (a * second - c * first) / determinant
