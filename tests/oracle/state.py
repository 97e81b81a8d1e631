"""What the judge knows of one condition of a plant, and the verdicts it can give.

What is not stated is put in twice, small and large: a figure that moves is unknown.
"""

from __future__ import annotations

from functools import cached_property
from math import inf
from typing import NamedTuple

from tests.oracle.dense import Dense
from tests.oracle.heat import ampacity
from tests.oracle.operating_points import CASES, fed
from tests.oracle.plant import Element, Plant, Supply, legs
from tests.oracle.spice import Block


class Verdict(NamedTuple):
    """A verdict and how much of what is allowed is used (1: all; infinite: a fail on a fact)."""

    verdict: str
    used: float = 0.0


PASS, UNPROVEN, FAIL, NOTE = (
    Verdict("pass"), Verdict("unproven"), Verdict("fail", inf), Verdict("note"),
)  # fmt: skip
#: Stand-ins for what is not stated [Ω].
SMALL, LARGE = 0.0, 0.02
#: Current [A] below which nothing is said to flow.
NOTHING = 1e-3
_RANK = {"fail": 0, "unproven": 1, "note": 2, "pass": 3}


def against(found: float | None, allowed: float | None) -> Verdict:
    """Found against an upper limit."""
    if found is None or allowed is None:
        return UNPROVEN
    used = found / allowed if allowed > 0 else (0.0 if found <= 0 else inf)
    return Verdict("pass" if found <= allowed * (1 + 1e-9) else "fail", used)


def worst(verdicts: list[Verdict]) -> Verdict | None:
    """The one that counts for all."""
    if not verdicts:
        return None
    verdict = min((v.verdict for v in verdicts), key=_RANK.__getitem__)
    return Verdict(verdict, max(v.used for v in verdicts))


class State:
    """One condition of a plant."""

    def __init__(self, plant: Plant, condition: str) -> None:
        self.plant, self.condition = plant, condition
        self.block = Block(plant, condition, 0, False)
        self.most = Dense(self.block)
        self._volts: dict[frozenset[int], float | None] = {}
        self.least = [Dense(Block(plant, condition, 0, True, ohms)) for ohms in (SMALL, LARGE)]

    def island(self, point: str) -> int:
        """The connected piece of a point."""
        return self.block.island[point]

    def volts(self, *points: str) -> float | None:
        """Highest voltage [V] of the pieces of these points."""
        pieces = frozenset(self.island(point) for point in points)
        if pieces not in self._volts:
            self._volts[pieces] = self._highest(pieces)
        return self._volts[pieces]

    def _highest(self, pieces: frozenset[int]) -> float | None:
        found: list[float | None] = [0.0]
        for supply in self.block.present:
            if self.island(supply.point) in pieces:
                if supply.part is None:
                    found.append(supply.voltage)
                else:
                    found += [supply.emf[1], supply.part.get("charge_voltage")]
        return None if None in found else max(each for each in found if each is not None)

    def strong(self, element: Element) -> bool:
        """Whether every battery that can feed it states its least resistance."""
        pieces = {self.island(element.start), self.island(element.end)}
        return all(s.ohms_low is not None for s in self.block.present
                   if s.part is not None and self.island(s.point) in pieces)  # fmt: skip

    def duty(self, element: Element) -> float | None:
        """Largest current [A] through it for a fault at either terminal."""
        return max(map(abs, self.most.arriving(element))) if self.strong(element) else None

    @cached_property
    def overdrawn(self) -> set[int]:
        """Pieces where limited sources alone cannot give what is drawn."""
        limits: dict[int, float] = {}
        drawn: dict[int, float] = {}
        for supply in self.block.present:
            piece = self.island(supply.point)
            if supply.part is None and piece not in self.block.batteries:
                limits[piece] = limits.get(piece, 0.0) + supply.limit
        for point, amps in self.plant.drawn(self.condition).items():
            drawn[self.island(point)] = drawn.get(self.island(point), 0.0) + amps
        return {piece for piece, limit in limits.items() if drawn.get(piece, 0.0) > limit + 1e-9}

    @cached_property
    def flows(self) -> list[list[dict[str, float]]]:
        """By stand-in and load case: current [A] through every closed element, start to end."""
        return [[self._flow(dense, draw, charge) for draw, charge in CASES]
                for dense in self.least]  # fmt: skip

    def _flow(self, dense: Dense, draw: bool, charge: bool) -> dict[str, float]:
        currents = dense.driven.copy()
        for point, amps in fed(dense.block, draw, charge):
            currents[dense.index[point]] += amps
        voltage = dense.voltages(currents)[0] if self.block.batteries else currents * 0.0
        found = {e.name: dense.flow(e, voltage) for e in dense.block.closed}
        return found | self._limited(dense, draw)

    def _limited(self, dense: Dense, draw: bool) -> dict[str, float]:
        """Pieces that limited sources alone feed: their voltages from one of them."""
        found: dict[str, float] = {}
        for piece in {self.island(p) for p in self.plant.points} - self.block.batteries:
            points = [p for p in self.plant.points if self.island(p) == piece]
            currents = dense.driven * 0.0
            for point, amps in fed(dense.block, draw, False):
                currents[dense.index[point]] += amps
            voltage = dense.voltages(currents, points[:1])[0]
            found |= {e.name: dense.flow(e, voltage) for e in self.block.closed
                      if self.island(e.start) == piece}  # fmt: skip
        return found

    def load(self, element: Element) -> float | None:
        """Largest current [A] of the load cases; None where what is not stated matters."""
        if not self.plant.closed(element, self.condition):
            return 0.0
        if self.island(element.start) in self.overdrawn:
            return None
        one, other = (max(abs(case[element.name]) for case in cases) for cases in self.flows)
        if max(one, other) < NOTHING:
            return 0.0
        return one if abs(one - other) <= 1e-4 * max(one, other) + 1e-4 else None

    def given(self, supply: Supply) -> float | None:
        """Largest current [A] that a battery gives; None where what is not stated matters."""
        if self.island(supply.point) in self.overdrawn:
            return None
        one, other = (
            max((emf - volts[supply.point]) / ohms for volts in cases)
            for cases, (emf, ohms) in zip(
                self.held, (dense.block.inner(supply) for dense in self.least), strict=True)
        )  # fmt: skip
        return max(one, 0.0) if abs(one - other) <= 1e-4 * abs(one) + 1e-4 else None

    @cached_property
    def held(self) -> list[list[dict[str, float]]]:
        """By stand-in and load case: voltage [V] of every point of pieces with batteries."""
        return [[self._held(dense, draw, charge) for draw, charge in CASES]
                for dense in self.least]  # fmt: skip

    def _held(self, dense: Dense, draw: bool, charge: bool) -> dict[str, float]:
        currents = dense.driven.copy()
        for point, amps in fed(dense.block, draw, charge):
            currents[dense.index[point]] += amps
        voltage = dense.voltages(currents)[0]
        return {point: float(voltage[n]) for point, n in dense.index.items()}

    def ampacity(self, element: Element, leg: int = 0) -> float | None:
        """Of a leg in its place [A]."""
        part, _, runs = legs(self.plant, element)[leg]
        entry = element.entry
        return ampacity(part, element.ambient, int(entry.get("bundle", 1)), runs,
                        bool(entry.get("sheathed")))  # fmt: skip
