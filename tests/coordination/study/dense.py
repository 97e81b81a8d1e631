"""The same network solved with numpy's dense solver, from first principles: the outside judge."""

from __future__ import annotations

import numpy as np

from coordination.network import Network
from coordination.trace import Derived, Value

#: Stands for "no resistance" where the dense solver needs a conductance [Ω].
TINY = 1e-9


def number(value: Value) -> float:
    assert isinstance(value, Derived)
    return value.value


class Dense:
    """Nodal analysis of one bound, one matrix for everything."""

    def __init__(self, network: Network, *, largest: bool, without: str = "") -> None:
        self.network, self.largest = network, largest
        size = len(network.points)
        self.matrix = np.zeros((size, size))
        for branch in network.branches:
            if branch.element.name != without:
                self._join(branch.start, branch.end, branch.low if largest else branch.high)
        self.emf = np.zeros(size)
        for feed in network.feeds:
            ohms = number(feed.resistance_low if largest else feed.resistance_high)
            self.matrix[feed.point, feed.point] += 1 / ohms
            self.emf[feed.point] += number(feed.emf_high if largest else feed.emf_low) / ohms
        self.injected = np.zeros(size)
        for injection in network.injections:
            self.injected[injection.point] += number(injection.limit)
        self.drawn = np.zeros(size)
        for draw in network.draws:
            self.drawn[draw.point] -= number(draw.current)

    def _join(self, one: int, other: int, ohms: float) -> None:
        siemens = 1 / max(ohms, TINY)
        self.matrix[one, one] += siemens
        self.matrix[other, other] += siemens
        self.matrix[one, other] -= siemens
        self.matrix[other, one] -= siemens

    @property
    def sources(self) -> np.ndarray:
        return self.emf + self.injected if self.largest else self.emf

    def fault(self, *points: int) -> tuple[np.ndarray, np.ndarray]:
        """Current to ground at each of the points, all held at 0 V, and every voltage then."""
        keep = [p for p in range(len(self.matrix)) if p not in points]
        voltage = np.zeros(len(self.matrix))
        if keep:
            voltage[keep] = np.linalg.solve(self.matrix[np.ix_(keep, keep)], self.sources[keep])
        left = self.sources - self.matrix @ voltage
        return left[list(points)], voltage

    def voltages(self, currents: np.ndarray) -> np.ndarray:
        return np.linalg.solve(self.matrix, currents)

    def through(self, branch: int, voltage: np.ndarray) -> float:
        """Current through a branch as drawn."""
        each = self.network.branches[branch]
        ohms = max(each.low if self.largest else each.high, TINY)
        return float((voltage[each.start] - voltage[each.end]) / ohms)
