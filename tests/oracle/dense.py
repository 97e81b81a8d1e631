"""A plant's network in one condition and one bound, solved whole with numpy: slow and plain.

A node's voltage is either held at 0 (a bolted fault) or found. Each call solves the piece anew.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from tests.oracle.plant import Element
from tests.oracle.spice import Block

Matrix = np.ndarray[tuple[int, int], np.dtype[np.float64]]
Vector = np.ndarray[tuple[int], np.dtype[np.float64]]

LITTLE = 1e-9


class Dense:
    """One block's conductances; sources are given with each question."""

    def __init__(self, block: Block) -> None:
        self.block, self.index = block, block.index
        size = len(self.index)
        self.matrix: Matrix = np.zeros((size, size))
        for element in block.closed:
            self._stamp(self.matrix, element, 1.0)
        self.driven: Vector = np.zeros(size)
        for supply in block.present:
            at = self.index[supply.point]
            if supply.part is not None:
                emf, ohms = block.inner(supply)
                self.matrix[at, at] += 1.0 / ohms
                self.driven[at] += emf / ohms
        self.injected: Vector = np.zeros(size)
        for supply in block.present:
            if supply.part is None:
                self.injected[self.index[supply.point]] += supply.limit

    def ohms(self, element: Element) -> float:
        """Resistance of an element [Ω], never quite 0."""
        return max(self.block.ohms(element), LITTLE)

    def _stamp(self, matrix: Matrix, element: Element, sign: float) -> None:
        a, b = self.index[element.start], self.index[element.end]
        g = sign / self.ohms(element)
        matrix[a, a] += g
        matrix[b, b] += g
        matrix[a, b] -= g
        matrix[b, a] -= g

    def voltages(
        self, fed: Vector, shorted: Iterable[str] = (), without: Element | None = None
    ) -> tuple[Vector, Vector]:
        """Voltage of each node, and current [A] that flows out to ground at each shorted one."""
        matrix = self.matrix
        if without is not None and without in self.block.closed:
            matrix = matrix.copy()
            self._stamp(matrix, without, -1.0)
        held = {self.index[point] for point in shorted}
        alive = {self.block.island[point] for point in shorted} | self.block.batteries
        free = [
            n for point, n in self.index.items()
            if n not in held and self.block.island[point] in alive
        ]  # fmt: skip
        found: Vector = np.zeros(len(self.index))
        if free:
            found[free] = np.linalg.solve(matrix[np.ix_(free, free)], fed[free])
        out: Vector = np.zeros(len(self.index))
        for n in held:
            out[n] = fed[n] - matrix[n] @ found
        return found, out

    def fault(self, point: str, sources: Vector) -> float:
        """Current [A] of a bolted fault at a point."""
        return float(self.voltages(sources, [point])[1][self.index[point]])

    def arriving(self, element: Element) -> tuple[float, float]:
        """Current [A] into a fault at an element's start and end, both shorted, itself out."""
        ends = (element.start, element.end)
        out = self.voltages(self.driven + self.injected, ends, element)[1]
        return float(out[self.index[ends[0]]]), float(out[self.index[ends[1]]])

    def flow(self, element: Element, voltage: Vector) -> float:
        """Current [A] through an element from start to end."""
        a, b = self.index[element.start], self.index[element.end]
        return float((voltage[a] - voltage[b]) / self.ohms(element))

    def per_ampere(self, point: str) -> dict[str, float]:
        """Current [A] through every element, start to end, per ampere into a fault at a point.

        Batteries give it; where there are none, limited sources at their limits.
        """
        fed: Vector = np.zeros(len(self.index))
        fed[self.index[point]] = -1.0
        if self.block.island[point] in self.block.batteries:
            voltage = self.voltages(fed)[0]
        else:
            total = self.fault(point, self.injected)
            voltage = self.voltages(self.injected / total, [point])[0] if total else fed * 0.0
        return {element.name: self.flow(element, voltage) for element in self.block.closed}
