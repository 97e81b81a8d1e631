"""Design currents: how the equipment's currents are shared, and the voltages they leave.

Three cases are solved, at low charge and with hot conductors: everything draws and batteries give;
limited sources give all they can and nothing draws; both at once. Where batteries are unequal, also
what they drive through each other when nothing draws and nothing charges.
"""

from __future__ import annotations

from functools import cached_property

from catalogue.frozen import dataclass
from coordination.study.figures import Figures, number
from coordination.trace import Unknown

CASES = ("batteries feed everything", "limited sources charge", "limited sources help to feed")
#: A further case: batteries of unequal voltage feed one another.
IDLE = "nothing draws"


@dataclass(frozen=True, slots=True)
class Case:
    """One case: the current [A] through each branch as drawn, the voltage [V] at each point."""

    name: str
    flows: list[float]
    voltages: list[float]


class Loads:
    """The load cases of one network, solved when first asked for."""

    def __init__(self, figures: Figures) -> None:
        self.figures = figures
        self.network = figures.network
        self._spreads: dict[int, list[float]] = {}

    @cached_property
    def demand(self) -> list[float]:
        """Sum of the draws [A] in each island, those without any source included."""
        sums = [0.0] * len(self.figures.shape.island_sources)
        for draw in self.network.draws:
            sums[self.figures.shape.island[draw.point]] += number(draw.current)
        return sums

    @cached_property
    def supply(self) -> dict[int, float]:
        """Sum of the limits [A] in each island that has limited sources only."""
        sums: dict[int, float] = {}
        for injection in self.network.injections:
            island = self.figures.shape.island[injection.point]
            if island in self.figures.stand_ins:
                sums[island] = sums.get(island, 0.0) + number(injection.limit)
        return sums

    @cached_property
    def overdrawn(self) -> dict[int, str]:
        """Islands whose limited sources cannot give what is drawn, with a phrase for each."""
        found: dict[int, str] = {}
        for island, limit in self.supply.items():
            demand = self.demand[island]
            if demand > limit * (1 + 1e-9):
                names = ", ".join(
                    i.source.name
                    for i in self.network.injections
                    if self.figures.shape.island[i.point] == island
                )
                found[island] = (
                    f"{names}: {demand:.4g} A are drawn where no battery is connected, "
                    f"but at most {limit:.4g} A can be given"
                )
        return found

    @cached_property
    def cases(self) -> tuple[Case, ...]:
        """The cases, the first always that of the batteries alone."""
        idle = (self._case(IDLE, False, False),) if self._unequal() else ()
        if not any(number(injection.limit) for injection in self.network.injections):
            return (self._case(CASES[0], True, False), *idle)
        return (
            self._case(CASES[0], True, False),
            self._case(CASES[1], False, True),
            self._case(CASES[2], True, True),
            *idle,
        )

    def _unequal(self) -> bool:
        """Whether batteries of unequal open-circuit voltage are connected to each other."""
        first: dict[int, float] = {}
        island = self.figures.shape.island
        for feed in self.network.feeds:
            emf = number(feed.emf_low)
            if first.setdefault(island[feed.point], emf) != emf:
                return True
        return False

    def _case(self, name: str, draw: bool, charge: bool) -> Case:
        figures = self.figures
        island, sources = figures.shape.island, figures.shape.island_sources
        fed = list(figures.emptied)
        if draw:
            fed += [
                (d.point, -number(d.current))
                for d in self.network.draws
                if sources[island[d.point]]
            ]
        for injection in self.network.injections:
            limit = self.supply.get(island[injection.point])
            if limit is None:
                if charge:
                    fed.append((injection.point, number(injection.limit)))
            elif draw and limit:
                share = number(injection.limit) / limit
                fed.append((injection.point, share * self.demand[island[injection.point]]))
        current = figures.high.gather(fed)
        voltages = figures.high.voltages(current)
        flows = figures.high.flows(current, voltages)
        self._refer(voltages)
        return Case(name, flows, voltages)

    def _refer(self, voltages: list[float]) -> None:
        """Lift islands without battery to where the first of their sources holds its voltage."""
        lift: dict[int, float] = {}
        shape = self.figures.shape
        for injection in self.network.injections:
            island = shape.island[injection.point]
            if island in self.figures.stand_ins and not isinstance(injection.voltage, Unknown):
                above = injection.voltage.value - voltages[injection.point]
                lift[island] = min(above, lift.get(island, above))
        if lift:
            for point, island in enumerate(shape.island):
                voltages[point] += lift.get(island, 0.0)

    def governing(self, branch: int) -> tuple[Case, float]:
        """The case with the largest current [A] through a branch, and that current as drawn."""
        best = self.cases[0]
        for case in self.cases[1:]:
            if abs(case.flows[branch]) > abs(best.flows[branch]):
                best = case
        return best, best.flows[branch]

    def reference(self, point: int) -> int | None:
        """Where voltage drops to a point are counted from: its island's source that is highest."""
        return self._references.get(self.figures.shape.island[point])

    @cached_property
    def _references(self) -> dict[int, int]:
        """By island: of its batteries, or else of its limited sources, the one that is highest."""
        island, voltages = self.figures.shape.island, self.cases[0].voltages
        found: dict[int, int] = {}
        batteries = [feed.point for feed in self.network.feeds]
        fed = {island[point] for point in batteries}
        limited = [i.point for i in self.network.injections if island[i.point] not in fed]
        for point in (*batteries, *limited):
            best = found.setdefault(island[point], point)
            if voltages[point] > voltages[best]:
                found[island[point]] = point
        return found

    def spread(self, point: int) -> list[float]:
        """Current [A] through every branch as drawn for each further ampere drawn at a point.

        Batteries give it: limited sources have no more to give.
        """
        if point not in self._spreads:
            solved = self.figures.high
            current = solved.gather([(point, -1.0)])
            self._spreads[point] = solved.flows(current, solved.voltages(current))
        return self._spreads[point]
