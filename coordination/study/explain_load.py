"""How a design current, a voltage drop and a voltage under load come about, step by step."""

from __future__ import annotations

from functools import cached_property

from coordination.study.combine import KIRCHHOFF, NODAL, OHM, series
from coordination.study.deferred import renamed
from coordination.study.doubts import Doubts
from coordination.study.figures import Figures
from coordination.study.loads import CASES, Case, Loads
from coordination.study.port import Ports
from coordination.trace import Derived

#: More currents than this are shown as one sum.
READABLE = 40


class LoadSteps:
    """Derivations of what flows under load in one network."""

    def __init__(self, figures: Figures, loads: Loads, doubts: Doubts, ports: Ports) -> None:
        self.figures, self.loads, self.doubts, self.ports = figures, loads, doubts, ports
        self.network = figures.network

    def current(self, branch: int) -> Derived:
        """The largest current [A] of the load cases through a branch."""
        case, flow = self.loads.governing(branch)
        quantity = f"design current while {case.name}"
        value = abs(flow)
        if self.doubts.blocks.single(branch):
            items = self._drawn_beyond(branch, case)
            if items is not None:
                return _balance(items, value, quantity)
        return self._share(branch, case, value, quantity) or Derived(
            f"{quantity} (network of {len(self.network.points)} points)",
            "I",
            value,
            "A",
            source=NODAL,
        )

    def _drawn_beyond(self, branch: int, case: Case) -> list[tuple[int, Derived]] | None:
        """Signed currents on the side of a branch that has no source of voltage, if few enough."""
        shape = self.figures.shape
        if branch in shape.chain_with:
            return None
        leaf = shape.leaves[self.figures.position[branch]]
        island = shape.island[leaf]
        behind, total = self._held(leaf, island)
        if behind and total - behind:
            return None
        start, end = shape.start[branch], shape.end[branch]
        far_is_leaf = not behind
        point = leaf if far_is_leaf else (end if start == leaf else start)
        if far_is_leaf and self._few[leaf] > READABLE:
            return None
        return self._collect(point, branch, case)

    def _held(self, leaf: int, island: int) -> tuple[int, int]:
        """Sources that hold a voltage: behind a leaf, and in the island."""
        shape = self.figures.shape
        if island in self.figures.stand_ins:
            return shape.sources[leaf], shape.island_sources[island]
        return shape.batteries[leaf], shape.island_batteries[island]

    @cached_property
    def _few(self) -> list[int]:
        """Number of draws and injections at and behind each point as it was peeled."""
        count = [0] * self.figures.shape.size
        for draw in self.network.draws:
            count[draw.point] += 1
        for injection in self.network.injections:
            count[injection.point] += 1
        shape = self.figures.shape
        for leaf, parent in zip(shape.leaves, shape.parents, strict=True):
            count[parent] += count[leaf]
        return count

    @cached_property
    def _standing(self) -> dict[int, list[tuple[bool, Derived]]]:
        """By point: whether it is a draw, and its current."""
        found: dict[int, list[tuple[bool, Derived]]] = {}
        for draw in self.network.draws:
            if isinstance(draw.current, Derived):
                found.setdefault(draw.point, []).append((True, draw.current))
        for injection in self.network.injections:
            if isinstance(injection.limit, Derived):
                found.setdefault(injection.point, []).append((False, injection.limit))
        return found

    def _collect(self, point: int, branch: int, case: Case) -> list[tuple[int, Derived]] | None:
        items: list[tuple[int, Derived]] = []
        seen = {point}
        waiting = [(point, branch)]
        steps = 0
        while waiting:
            here, came = waiting.pop()
            steps += 1
            for draws, current in self._standing.get(here, ()):
                flows = case.name in (CASES[0] if draws else CASES[1], CASES[2])
                if flows and current.value:
                    items.append((1 if draws else -1, current))
            if len(items) > READABLE or steps > 50 * READABLE:
                return None
            for other in self.ports.around[here]:
                ends = self.network.branches[other]
                beyond = ends.end if ends.start == here else ends.start
                if other != came and beyond not in seen:
                    seen.add(beyond)
                    waiting.append((beyond, other))
        return items

    def _share(self, branch: int, case: Case, value: float, quantity: str) -> Derived | None:
        """A battery's share: what its voltage drives to the point where it meets the others."""
        shape = self.figures.shape
        if branch in shape.chain_with:
            return None
        leaf = shape.leaves[self.figures.position[branch]]
        ends = self.network.branches[branch]
        parent = ends.end if ends.start == leaf else ends.start
        island = shape.island[leaf]
        if shape.batteries[leaf] == 1 and self._few[leaf] == 0:
            meeting = parent
        elif (
            shape.island_batteries[island] - shape.batteries[leaf] == 1
            and self._all_few.get(island, 0) == self._few[leaf]
        ):
            meeting = leaf
        else:
            return None
        port = self.ports.behind(meeting, branch)
        if port.emf is None or port.current is not None:
            return None
        return _driven(port.emf, series(port.terms), case.voltages[meeting], value, quantity)

    @cached_property
    def _all_few(self) -> dict[int, int]:
        counts: dict[int, int] = {}
        shape = self.figures.shape
        for draw in self.network.draws:
            counts[shape.island[draw.point]] = counts.get(shape.island[draw.point], 0) + 1
        for injection in self.network.injections:
            island = shape.island[injection.point]
            counts[island] = counts.get(island, 0) + 1
        return counts

    def voltage(self, point: int, value: float) -> Derived:
        """The voltage [V] at a point with everything drawing."""
        return Derived(
            f"voltage under load at {self.network.points[point]}",
            "U",
            value,
            "V",
            source=NODAL,
        )

    def drop(self, point: int, source: int, value: float, quantity: str) -> Derived:
        """The voltage [V] lost between a source's terminals and a point with everything drawing."""
        way = self.ports.way(source, point)
        case = self.loads.cases[0]
        if way is None or len(way) > READABLE:
            ends = (
                renamed(self.voltage(source, case.voltages[source]), "U_1"),
                renamed(self.voltage(point, case.voltages[point]), "U_2"),
            )
            return Derived(quantity, "U", value, "V", "U_1 − U_2", ends, OHM)
        parts: list[Derived] = []
        for branch, sign in way:
            resistance = self.ports.loop(branch)
            if resistance.value:
                parts.append(
                    self._lost(branch, sign * case.flows[branch], resistance, f"U_{len(parts) + 1}")
                )
        if len(parts) == 1:
            return renamed(parts[0], "U", quantity, value)
        if not parts:
            return Derived(f"{quantity}: no resistance on the way", "U", value, "V", source=OHM)
        return Derived(
            quantity,
            "U",
            value,
            "V",
            " + ".join(part.symbol for part in parts),
            tuple(parts),
            KIRCHHOFF,
        )

    def through(self, branch: int, case: Case) -> Derived:
        """The current [A] through a branch in one case, counted positive."""
        element, flow = self.network.branches[branch].element, abs(case.flows[branch])
        quantity = f"current through {element.name} while {case.name}"
        if self.doubts.blocks.single(branch):
            items = self._drawn_beyond(branch, case)
            if items is not None:
                return _balance(items, flow, quantity)
        return Derived(quantity, "I", flow, "A", source=NODAL)

    def _lost(self, branch: int, flow: float, resistance: Derived, symbol: str) -> Derived:
        current = self.through(branch, self.loads.cases[0])
        if flow < 0:
            current = Derived(f"{current.quantity}, backwards", "I", flow, "A", source=NODAL)
        return Derived(
            f"voltage lost in {self.network.branches[branch].element.name}",
            symbol,
            flow * resistance.value,
            "V",
            "I × R",
            (renamed(current, "I"), renamed(resistance, "R")),
            OHM,
        )


def _balance(items: list[tuple[int, Derived]], value: float, quantity: str) -> Derived:
    """Currents drawn less currents given beyond a branch: what it carries."""
    if not items:
        return Derived(f"{quantity}: nothing is drawn beyond it", "I", value, "A", source=KIRCHHOFF)
    if sum(sign * item.value for sign, item in items) < 0:
        items = [(-sign, item) for sign, item in items]
    items = sorted(items, key=lambda item: -item[0])
    if len(items) == 1:
        return renamed(items[0][1], "I")
    named = [renamed(item, f"I_{n}") for n, (_, item) in enumerate(items, 1)]
    formula = ""
    for (sign, _), item in zip(items, named, strict=True):
        formula += (" + " if sign > 0 else " − ") + item.symbol
    return Derived(quantity, "I", value, "A", formula[3:], tuple(named), KIRCHHOFF)


def _driven(
    emf: Derived, resistance: Derived, voltage: float, value: float, quantity: str
) -> Derived:
    """The current that a voltage difference drives through a resistance."""
    meeting = Derived(
        "voltage where the sources meet", "U", voltage, "V", source=NODAL
    )
    formula = "(E − U) / R" if emf.value >= voltage else "(U − E) / R"
    return Derived(
        f"{quantity}, shared between sources",
        "I",
        value,
        "A",
        formula,
        (renamed(emf, "E"), meeting, resistance),
        OHM,
    )
