"""Fault currents, duties and time constants with their derivations."""

from __future__ import annotations

from dataclasses import replace

from coordination.model import Element
from coordination.physics.sources import RL_CIRCUIT
from coordination.study.doubts import Doubts
from coordination.study.figures import Figures
from coordination.study.port import KIRCHHOFF, NODAL, Ports, series, shorted
from coordination.study.zones import Weakest, Zones
from coordination.trace import Derived, Source, Unknown, Value

DUTY = Source("definition", "duty: the larger of the currents from either side, terminals shorted")
LIMITED = Source("definition", "min bound: current-limited sources add nothing")


class FaultSteps:
    """What one network can do into a short circuit."""

    def __init__(
        self, figures: Figures, doubts: Doubts, most: Ports, least: Ports, zones: Zones
    ) -> None:
        self.figures, self.doubts = figures, doubts
        self.most, self.least, self.zones = most, least, zones
        self.network = figures.network

    def largest(self, point: int) -> Value:
        """Largest fault current [A] at a point."""
        quantity = f"largest fault current at {self.network.points[point]}"
        missing = self.doubts.fault_max(point)
        if missing:
            return Unknown(quantity, missing)
        return shorted(self.most.at(point), self.figures.most.short[point], quantity)

    def smallest(self, point: int) -> Value:
        """Least fault current [A] at a point."""
        quantity = f"least fault current at {self.network.points[point]}"
        shape = self.figures.shape
        if not shape.island_batteries[shape.island[point]]:
            return Derived(f"{quantity}: no battery", "I", 0.0, "A", source=LIMITED)
        missing = self.doubts.fault_min(point)
        if missing:
            return Unknown(quantity, missing)
        return shorted(self.least.at(point), self.figures.least.short[point], quantity)

    def duty(self, element: Element) -> Value:
        """Largest current [A] through an element for a fault at either terminal."""
        quantity = f"largest current through {element.name} for a fault at its terminals"
        start, end = (self.network.index[name] for name in (element.start, element.end))
        missing = self.doubts.fault_max(start) + self.doubts.fault_max(end)
        if missing:
            return Unknown(quantity, tuple(dict.fromkeys(missing)))
        from_start, from_end = self._sides(element, start, end)
        value = max(from_start.value, from_end.value)
        return Derived(quantity, "I", value, "A", "max(I_start, I_end)", (from_start, from_end), DUTY)

    def _sides(self, element: Element, start: int, end: int) -> tuple[Derived, Derived]:
        names = (f"current arriving at {element.start}", f"current arriving at {element.end}")
        branch = self.figures.branch_of.get(element.name, -1)
        shape = self.figures.shape
        looped = branch in shape.chain_with
        if branch >= 0:
            values = self.figures.sides(branch)
        else:
            values = self.figures.across(start, end)
            looped = shape.island[start] == shape.island[end]
        if looped:
            words = f"network solution, {len(self.network.points)} points"
            return (
                Derived(f"{names[0]}: {words}", "I_start", abs(values[0]), "A", source=NODAL),
                Derived(f"{names[1]}: {words}", "I_end", abs(values[1]), "A", source=NODAL),
            )
        return (
            shorted(self.most.at(start, branch), values[0], names[0], "I_start"),
            shorted(self.most.at(end, branch), values[1], names[1], "I_end"),
        )

    def through(self, element: Element) -> Value:
        """Least current [A] through an element for a fault in what it protects."""
        quantity = f"least fault current through {element.name}"
        branch = self.figures.branch_of.get(element.name)
        if branch is None:
            return Derived(f"{quantity}: open", "I", 0.0, "A", source=KIRCHHOFF)
        missing = self._zone_missing(branch) if self.doubts.resistive else ()
        if missing:
            return Unknown(quantity, missing)
        weakest = self.zones.weakest(branch)
        if weakest.point < 0:
            return Derived(f"{quantity}: no battery", "I", 0.0, "A", source=LIMITED)
        return self._through_steps(branch, weakest, quantity)

    def _through_steps(self, branch: int, weakest: Weakest, quantity: str) -> Derived:
        where = f"{quantity}, for a fault at {self.network.points[weakest.point]}"
        if self.zones.one_way(branch):
            return shorted(self.least.at(weakest.point), weakest.current, where)
        ends = self.network.branches[branch]
        if weakest.point in (ends.start, ends.end) and branch not in self.figures.shape.chain_with:
            return shorted(self.least.behind(weakest.point, branch), weakest.current, where)
        words = f"{where}: network solution, {len(self.network.points)} points"
        return Derived(words, "I", weakest.current, "A", source=NODAL)

    def _zone_missing(self, branch: int) -> tuple[str, ...]:
        missing: dict[str, None] = {}
        for point in self.zones.points(branch):
            missing.update(dict.fromkeys(self.doubts.fault_min(point)))
        return tuple(missing)

    def time_constant(self, point: int) -> Value:
        """Time constant [s] of a fault at a point."""
        name = self.network.points[point]
        quantity = f"time constant at {name}"
        conductance = self.figures.most.conductance[point]
        if not self.figures.most.short[point]:
            return Derived(f"{quantity}: no fault current", "τ", 0.0, "s", source=KIRCHHOFF)
        if not conductance:
            return Unknown(quantity, (f"{name}: time constant of current-limited sources",))
        missing = self.doubts.time_constant(point)
        if missing:
            return Unknown(quantity, missing)
        inductance = self._henries(point)
        port = self.most.at(point)
        ohms = replace(series(port.terms), symbol="R") if port.terms else Derived(
            f"resistance seen from {name}", "R", 1.0 / conductance, "Ω", source=NODAL)
        return Derived(quantity, "τ", inductance.value * conductance, "s", "L / R",
                       (inductance, ohms), RL_CIRCUIT)

    def _henries(self, point: int) -> Derived:
        """Inductance [H] seen from a point: the sum along the way where one source feeds it."""
        island = self.figures.shape.island[point]
        feeds = [f for f in self.network.feeds if self.figures.shape.island[f.point] == island]
        way = self.most.way(feeds[0].point, point) if len(feeds) == 1 else None
        value = self.figures.inductance[point]
        if way is not None:
            parts = [self.network.loops.inductance(self.network.branches[b].element) for b, _ in way]
            known = [part for part in parts if isinstance(part, Derived) and part.value]
            if known:
                named = tuple(replace(p, symbol=f"L_{n}") for n, p in enumerate(known, 1))
                if len(named) == 1:
                    return replace(named[0], symbol="L")
                return Derived("inductance of the loop", "L", sum(p.value for p in named), "H",
                               " + ".join(p.symbol for p in named), named, KIRCHHOFF)
        return Derived("rate at which the impedance seen grows with frequency", "L", value, "H",
                       source=NODAL)
