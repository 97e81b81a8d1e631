"""Currents of busbars and sources: what flows in, what flows out, the busiest section."""

from __future__ import annotations

from coordination.model import Busbar, Source
from coordination.network import Network
from coordination.study.combine import KIRCHHOFF
from coordination.study.deferred import deferred, renamed
from coordination.study.doubts import Doubts
from coordination.study.explain_load import LoadSteps
from coordination.study.loads import Case, Loads
from coordination.trace import Derived, Unknown, Value


class Bars:
    """Sums of design currents at the points of one network."""

    def __init__(self, network: Network, loads: Loads, doubts: Doubts, steps: LoadSteps) -> None:
        self.network, self.loads, self.doubts, self.steps = network, loads, doubts, steps

    def incoming(self, busbar: Busbar) -> Value:
        """Largest sum [A] flowing into a busbar over the load cases."""
        return self._sum(busbar, "flowing into", -1)

    def outgoing(self, busbar: Busbar) -> Value:
        """Largest sum [A] flowing out of a busbar over the load cases."""
        return self._sum(busbar, "flowing out of", 1)

    def section(self, busbar: Busbar) -> Value:
        """Current [A] in the busiest section of a busbar, or the sum that leaves it."""
        attached = self._attached(busbar.name)
        circuits = [self.network.branches[branch].element.circuit for branch, _ in attached]
        if not busbar.order or not set(circuits) <= set(busbar.order):
            return self.outgoing(busbar)
        quantity = f"current in the busiest section of {busbar.name}"
        missing = self._missing(attached)
        if missing:
            return Unknown(quantity, missing)
        attached.sort(
            key=lambda item: busbar.order.index(self.network.branches[item[0]].element.circuit)
        )
        best, case, upto = 0.0, self.loads.cases[0], 0
        for each in self.loads.cases:
            along = 0.0
            for position, (branch, sign) in enumerate(attached):
                along += sign * each.flows[branch]
                # After the last circuit nothing is left but rounding.
                if abs(along) > best and position < len(attached) - 1:
                    best, case, upto = abs(along), each, position + 1
        return deferred("I", best, "A", lambda: self._added(attached[:upto], case, best, quantity))

    def source_current(self, source: Source) -> Value:
        """Largest current [A] that a source gives over the load cases."""
        quantity = f"current given by {source.name}"
        for injection in self.network.injections:
            if injection.source.name == source.name:
                return injection.limit
        number = next(
            (n for n, feed in enumerate(self.network.feeds) if feed.source.name == source.name),
            None,
        )
        if number is None:
            return Derived(f"{quantity}: not in", "I", 0.0, "A", source=KIRCHHOFF)
        attached = self._attached(source.name)
        missing = self.doubts.tie(number) or self._missing(attached)
        if missing:
            return Unknown(quantity, missing)
        case = max(self.loads.cases, key=lambda case: self._leaving(attached, case))
        value = self._leaving(attached, case)
        if value <= 0.0:
            return Derived(f"{quantity}: it is charged", "I", 0.0, "A", source=KIRCHHOFF)
        return deferred(
            "I", value, "A",
            lambda: self._added(attached, case, value, f"{quantity} while {case.name}"),
        )

    def _sum(self, busbar: Busbar, words: str, direction: int) -> Value:
        quantity = f"sum {words} {busbar.name}"
        attached = self._attached(busbar.name)
        missing = self._missing(attached)
        if missing:
            return Unknown(quantity, missing)

        def going(case: Case) -> list[tuple[int, int]]:
            return [(b, sign) for b, sign in attached if direction * sign * case.flows[b] > 0]

        case = max(self.loads.cases, key=lambda c: abs(self._leaving(going(c), c)))
        flowing = going(case)
        value = abs(self._leaving(flowing, case))
        return deferred(
            "I", value, "A",
            lambda: self._added(flowing, case, value, f"{quantity} while {case.name}"),
        )

    def _attached(self, name: str) -> list[tuple[int, int]]:
        """Branches at a point, +1 where drawn away from it."""
        point = self.network.index[name]
        return [
            (branch, 1 if self.network.branches[branch].start == point else -1)
            for branch in self.steps.ports.around[point]
        ]

    def _missing(self, attached: list[tuple[int, int]]) -> tuple[str, ...]:
        missing: dict[str, None] = {}
        for branch, _ in attached:
            missing.update(dict.fromkeys(self.doubts.load(branch)))
        return tuple(missing)

    def _leaving(self, attached: list[tuple[int, int]], case: Case) -> float:
        return sum(sign * case.flows[branch] for branch, sign in attached)

    def _added(
        self, attached: list[tuple[int, int]], case: Case, value: float, quantity: str
    ) -> Derived:
        """The sum of several branches' currents; those that flow the other way are taken off."""
        signed = [(sign * case.flows[b], self.steps.through(b, case)) for b, sign in attached]
        signed = [(flow, item) for flow, item in signed if item.value]
        if not signed:
            return Derived(f"{quantity}: nothing flows", "I", value, "A", source=KIRCHHOFF)
        if sum(flow for flow, _ in signed) < 0:
            signed = [(-flow, item) for flow, item in signed]
        signed.sort(key=lambda item: item[0] < 0)
        if len(signed) == 1:
            return renamed(signed[0][1], "I", value=value)
        formula, named = "", []
        for position, (flow, item) in enumerate(signed, 1):
            named.append(renamed(item, f"I_{position}"))
            formula += (" + " if flow > 0 else " − ") + named[-1].symbol
        return Derived(quantity, "I", value, "A", formula[3:], tuple(named), KIRCHHOFF)
