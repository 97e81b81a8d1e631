"""Fault currents, duties and time constants with their derivations."""

from __future__ import annotations

from coordination.model import Element
from coordination.physics.sources import RL_CIRCUIT
from coordination.study.combine import KIRCHHOFF, NODAL, series, shorted
from coordination.study.deferred import deferred, renamed
from coordination.study.doubts import Doubts
from coordination.study.figures import Figures
from coordination.study.port import Ports
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
        value, shape = self.figures.most.short[point], self.figures.shape
        # Without a battery it may be one source's stated limit.
        limits_alone = not shape.island_batteries[shape.island[point]]
        return deferred(
            "I",
            value,
            "A",
            lambda: shorted(self.most.at(point), value, quantity),
            stated=limits_alone,
        )

    def smallest(self, point: int) -> Value:
        """Least fault current [A] at a point."""
        quantity = f"least fault current at {self.network.points[point]}"
        shape = self.figures.shape
        if not shape.island_batteries[shape.island[point]]:
            return Derived(f"{quantity}: no battery", "I", 0.0, "A", source=LIMITED)
        missing = self.doubts.fault_min(point)
        if missing:
            return Unknown(quantity, missing)
        value = self.figures.least.short[point]
        return deferred("I", value, "A", lambda: shorted(self.least.at(point), value, quantity))

    def duty(self, element: Element) -> Value:
        """Largest current [A] through an element for a fault at either terminal."""
        quantity = f"largest current through {element.name} for a fault at its terminals"
        start, end = (self.network.index[name] for name in (element.start, element.end))
        missing = self.doubts.fault_max(start) + self.doubts.fault_max(end)
        if missing:
            return Unknown(quantity, tuple(dict.fromkeys(missing)))
        branch = self.figures.branch_of.get(element.name, -1)
        values = self.figures.sides(branch) if branch >= 0 else self.figures.across(start, end)
        value = max(abs(values[0]), abs(values[1]))

        def steps() -> Derived:
            sides = self._sides(element, branch, (start, end), values)
            return Derived(quantity, "I", value, "A", "max(I_start, I_end)", sides, DUTY)

        return deferred("I", value, "A", steps)

    def arriving(self, element: Element, forward: bool) -> Value:
        """Largest current [A] through a closed element for a fault at its end, or at its start."""
        near = element.start if forward else element.end
        quantity = f"largest current into {element.name} from {near}, for a fault just beyond"
        ends = (self.network.index[element.start], self.network.index[element.end])
        missing = self.doubts.fault_max(ends[0]) + self.doubts.fault_max(ends[1])
        branch = self.figures.branch_of.get(element.name, -1)
        if missing:
            return Unknown(quantity, tuple(dict.fromkeys(missing)))
        if branch < 0:
            return Derived(f"{quantity}: open", "I", 0.0, "A", source=KIRCHHOFF)
        values = self.figures.sides(branch)
        side = 0 if forward else 1

        def steps() -> Derived:
            return renamed(self._sides(element, branch, ends, values)[side], "I", quantity)

        return deferred("I", abs(values[side]), "A", steps)

    def _sides(
        self, element: Element, branch: int, ends: tuple[int, int], values: tuple[float, float]
    ) -> tuple[Derived, Derived]:
        """The current arriving at each terminal; a port where the way there is a tree's."""
        island = self.figures.shape.island
        looped = (
            branch in self.figures.shape.chain_with
            if branch >= 0
            else island[ends[0]] == island[ends[1]]
        )
        found: list[Derived] = []
        for name, point, value, end in zip(
            (element.start, element.end), ends, values, ("start", "end"), strict=True
        ):
            quantity = f"current arriving at {name}"
            if looped:
                words = f"{quantity} (network of {len(self.network.points)} points)"
                found.append(Derived(words, f"I_{end}", abs(value), "A", source=NODAL))
            else:
                found.append(shorted(self.most.at(point, branch), value, quantity, f"I_{end}"))
        return found[0], found[1]

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
        return deferred(
            "I", weakest.current, "A", lambda: self._through_steps(branch, weakest, quantity)
        )

    def through_beyond(self, element: Element, forward: bool) -> Value:
        """Least current [A] through a closed element for a fault beyond its end, or its start."""
        quantity = f"least current through {element.name} for a fault beyond it"
        branch = self.figures.branch_of[element.name]
        missing = self._zone_missing(branch) if self.doubts.resistive else ()
        if missing:
            return Unknown(quantity, missing)
        weakest = self.zones.beyond(branch, forward)
        if weakest.point < 0:
            return Derived(f"{quantity}: no battery", "I", 0.0, "A", source=LIMITED)
        return deferred(
            "I", weakest.current, "A", lambda: self._through_steps(branch, weakest, quantity)
        )

    def _through_steps(self, branch: int, weakest: Weakest, quantity: str) -> Derived:
        where = f"{quantity}, for a fault at {self.network.points[weakest.point]}"
        if self.zones.one_way(branch):
            return shorted(self.least.at(weakest.point), weakest.current, where)
        ends = self.network.branches[branch]
        if weakest.point in (ends.start, ends.end) and branch not in self.figures.shape.chain_with:
            return shorted(self.least.behind(weakest.point, branch), weakest.current, where)
        words = f"{where} (network of {len(self.network.points)} points)"
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
        value = self.figures.inductance[point] * conductance
        return deferred("τ", value, "s", lambda: self._delay(point, value, quantity))

    def _delay(self, point: int, value: float, quantity: str) -> Derived:
        port = self.most.at(point)
        ohms = (
            series(port.terms)
            if port.terms
            else Derived(
                f"resistance seen from {self.network.points[point]}",
                "R",
                1.0 / self.figures.most.conductance[point],
                "Ω",
                source=NODAL,
            )
        )
        return Derived(quantity, "τ", value, "s", "L / R", (self._henries(point), ohms), RL_CIRCUIT)

    def _henries(self, point: int) -> Derived:
        """Inductance [H] seen from a point: the sum along the way where one source feeds it."""
        island = self.figures.shape.island[point]
        feeds = [f for f in self.network.feeds if self.figures.shape.island[f.point] == island]
        way = self.most.way(feeds[0].point, point) if len(feeds) == 1 else None
        value = self.figures.inductance[point]
        if way is not None:
            parts = [
                self.network.loops.inductance(self.network.branches[b].element) for b, _ in way
            ]
            known = [part for part in parts if isinstance(part, Derived) and part.value]
            if known:
                named = tuple(renamed(p, f"L_{n}") for n, p in enumerate(known, 1))
                if len(named) == 1:
                    return renamed(named[0], "L")
                return Derived(
                    "inductance of the loop",
                    "L",
                    sum(p.value for p in named),
                    "H",
                    " + ".join(p.symbol for p in named),
                    named,
                    KIRCHHOFF,
                )
        return Derived(
            "rate at which the impedance seen grows with frequency", "L", value, "H", source=NODAL
        )
