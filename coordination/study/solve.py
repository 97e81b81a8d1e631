"""Voltages, short-circuit currents and resistances at every point, for one set of resistances.

Every source is a current J beside a conductance g. A tree's branch R passes them on as
g' = g / (1 + R g), J' = J / (1 + R g): exact at R = 0, where a conductance 1 / R would not be, and
right at g = 0, where there is no battery and so no voltage to speak of. What hangs on the core is
so carried to its junctions; the core is eliminated; then everything is carried back out.

A chain of the core without any resistance counts 1 nΩ (`FLOOR`), so that its share is defined.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate
from operator import mul

from coordination.study.factor import Factor
from coordination.study.topology import Chain, Topology

#: Resistance [Ω] of a chain in a loop that has none at all.
FLOOR = 1e-9


class Solved:
    """A network with one set of resistances [Ω], reduced; ready for any currents."""

    def __init__(
        self,
        shape: Topology,
        resistance: Sequence[float],
        shunts: Sequence[tuple[int, float]],
    ) -> None:
        """shunts -- (point, conductance [S]) of every battery."""
        self.shape = shape
        self.resistance = resistance
        self.conductance = [0.0] * shape.size
        for point, conductance in shunts:
            self.conductance[point] += conductance
        self.pass_on = self._fold()
        self.totals, self.places = _lengths(shape, resistance)
        self.row_of = {point: row for row, point in enumerate(shape.core)}
        self._factor: Factor | None = None

    def _fold(self) -> list[float]:
        """Carry conductances from the leaves inwards; gives 1 / (1 + R g) of each leaf."""
        shape, conductance, resistance = self.shape, self.conductance, self.resistance
        pass_on: list[float] = []
        for leaf, parent, via in zip(shape.leaves, shape.parents, shape.vias, strict=True):
            behind = conductance[leaf]
            if behind:
                part = 1.0 / (1.0 + resistance[via] * behind)
                conductance[parent] += behind * part
                pass_on.append(part)
            else:
                pass_on.append(1.0)
        return pass_on

    @property
    def factor(self) -> Factor:
        """The core, eliminated."""
        if self._factor is None:
            rows = self.row_of
            self._factor = Factor(
                (self.conductance[point] for point in self.shape.core),
                (
                    (rows[chain.head], rows[chain.tail], 1.0 / total)
                    for chain, total in zip(self.shape.chains, self.totals, strict=True)
                ),
            )
        return self._factor

    def gather(self, fed: Sequence[tuple[int, float]]) -> list[float]:
        """Currents [A] at each point with all that arrives from behind it."""
        current = [0.0] * self.shape.size
        for point, amount in fed:
            current[point] += amount
        shape = self.shape
        for leaf, parent, part in zip(shape.leaves, shape.parents, self.pass_on, strict=True):
            if current[leaf]:
                current[parent] += current[leaf] * part
        return current

    def voltages(self, current: Sequence[float]) -> list[float]:
        """Voltage [V] of every point for gathered currents; 0 V where nothing holds a voltage."""
        shape = self.shape
        voltage = [0.0] * shape.size
        for root in shape.roots:
            if self.conductance[root]:
                voltage[root] = current[root] / self.conductance[root]
        if shape.core:
            self._core_voltages(current, voltage)
        resistance = self.resistance
        for leaf, parent, via, part in zip(
            reversed(shape.leaves),
            reversed(shape.parents),
            reversed(shape.vias),
            reversed(self.pass_on),
            strict=True,
        ):
            voltage[leaf] = (voltage[parent] + resistance[via] * current[leaf]) * part
        return voltage

    def _core_voltages(self, current: Sequence[float], voltage: list[float]) -> None:
        rows, shape = self.row_of, self.shape
        lumped = [current[point] for point in shape.core]
        for chain, total, places in zip(shape.chains, self.totals, self.places, strict=True):
            for point, place in zip(chain.nodes, places, strict=True):
                if current[point]:
                    lumped[rows[chain.head]] += current[point] * (total - place) / total
                    lumped[rows[chain.tail]] += current[point] * place / total
        for point, value in zip(shape.core, self.factor.solve(lumped), strict=True):
            voltage[point] = value
        for number, chain in enumerate(shape.chains):
            flows = self._chain_flows(number, current, voltage)
            value = voltage[chain.head]
            for point, branch, flow in zip(chain.nodes, chain.branches, flows, strict=False):
                value -= flow * self.resistance[branch]
                voltage[point] = value

    def _chain_flows(
        self, number: int, current: Sequence[float], voltage: Sequence[float]
    ) -> list[float]:
        """Current [A] through each branch of a chain, from head to tail."""
        chain: Chain = self.shape.chains[number]
        total, places = self.totals[number], self.places[number]
        flow = (voltage[chain.head] - voltage[chain.tail]) / total
        fed = [current[point] for point in chain.nodes]
        if not any(fed):
            return [flow] * len(chain.branches)
        flow -= sum(map(mul, fed, [(total - place) / total for place in places]))
        return list(accumulate(fed, initial=flow))

    def flows(self, current: Sequence[float], voltage: Sequence[float]) -> list[float]:
        """Current [A] through every branch, in the direction in which it is drawn."""
        shape = self.shape
        flow = [0.0] * len(shape.start)
        for leaf, parent, via, part in zip(
            shape.leaves, shape.parents, shape.vias, self.pass_on, strict=True
        ):
            inwards = (current[leaf] - voltage[parent] * self.conductance[leaf]) * part
            flow[via] = inwards if shape.start[via] == leaf else -inwards
        for number, chain in enumerate(shape.chains):
            along = self._chain_flows(number, current, voltage)
            for branch, forward, amount in zip(chain.branches, chain.forward, along, strict=True):
                flow[branch] = amount if forward else -amount
        return flow


class Faults:
    """Short-circuit current and source resistance at every point, for one set of sources.

    short       -- current [A] of a bolted fault at each point
    conductance -- 1 / Thevenin resistance [S] at each point; 0: no battery reaches it
    toward      -- at each leaf's parent, without what hangs on the leaf: (conductance, current)
    """

    def __init__(self, solved: Solved, fed: Sequence[tuple[int, float]]) -> None:
        """fed -- (point, current [A]) of every source with its terminals shorted."""
        self.solved = solved
        self.current = solved.gather(fed)
        size = solved.shape.size
        self.short = [0.0] * size
        self.conductance = [0.0] * size
        self.toward: list[tuple[float, float]] = []
        self._roots()
        self._core()
        self._spread()

    def _roots(self) -> None:
        for root in self.solved.shape.roots:
            self.short[root] = self.current[root]
            self.conductance[root] = self.solved.conductance[root]

    def _core(self) -> None:
        """Junctions from the inverse; the points of a chain by where they lie along it."""
        solved, shape = self.solved, self.solved.shape
        if not shape.core:
            return
        sums = [0.0] * len(shape.island_sources)
        for point in (*shape.core, *shape.chain_of):
            sums[shape.island[point]] += self.current[point]
        voltage = [0.0] * shape.size
        solved._core_voltages(self.current, voltage)
        inverse = solved.factor.inverse()
        for row, point in enumerate(shape.core):
            self._set(point, voltage[point], inverse[row][row], sums)
        rows = solved.row_of
        for chain, total, places in zip(shape.chains, solved.totals, solved.places, strict=True):
            head, tail = rows[chain.head], rows[chain.tail]
            one, other, both = inverse[head][head], inverse[tail][tail], inverse[head][tail]
            for point, place in zip(chain.nodes, places, strict=True):
                far = place / total
                near = 1.0 - far
                ohms = place * near + near * near * one + far * far * other + 2 * near * far * both
                self._set(point, voltage[point], ohms, sums)

    def _set(self, point: int, voltage: float, ohms: float, sums: list[float]) -> None:
        island = self.solved.shape.island[point]
        if self.solved.shape.island_batteries[island]:
            self.conductance[point] = 1.0 / ohms
            self.short[point] = voltage / ohms
        else:
            self.short[point] = sums[island]

    def _spread(self) -> None:
        """Carry what the rest of the network gives out to the leaves."""
        solved, shape = self.solved, self.solved.shape
        short, conductance, resistance = self.short, self.conductance, solved.resistance
        island, batteries, sources = shape.island, shape.batteries, shape.sources
        toward: list[tuple[float, float]] = []
        for leaf, parent, via, part in zip(
            reversed(shape.leaves),
            reversed(shape.parents),
            reversed(shape.vias),
            reversed(solved.pass_on),
            strict=True,
        ):
            number = island[leaf]
            rest = amount = 0.0
            if shape.island_batteries[number] > batteries[leaf]:
                rest = conductance[parent] - solved.conductance[leaf] * part
            if shape.island_sources[number] > sources[leaf]:
                amount = short[parent] - self.current[leaf] * part
            toward.append((rest, amount))
            keep = 1.0 / (1.0 + resistance[via] * rest)
            conductance[leaf] = solved.conductance[leaf] + rest * keep
            short[leaf] = self.current[leaf] + amount * keep
        toward.reverse()
        self.toward = toward


def _lengths(shape: Topology, resistance: Sequence[float]) -> tuple[list[float], list[list[float]]]:
    """Total resistance of each chain, and the resistance from its head to each interior point."""
    totals: list[float] = []
    places: list[list[float]] = []
    for chain in shape.chains:
        at: list[float] = []
        place = 0.0
        for branch in chain.branches:
            place += resistance[branch]
            at.append(place)
        at.pop()
        totals.append(place if place > 0.0 else FLOOR)
        places.append(at)
    return totals, places
