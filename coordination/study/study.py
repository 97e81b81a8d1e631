"""The study of one network: every quantity a rule may ask for, each worked out when first asked.

The accessors stand with what they are about: `currents`, `surroundings`, `time_current`,
`budgets`, `continuity`; this module only brings together what they rest on.
"""

from __future__ import annotations

from functools import cached_property
from typing import Any

from coordination.ampacity import AmpacityBasis
from coordination.network import Network
from coordination.study import islands
from coordination.study.budgets import Budgets
from coordination.study.busbars import Bars
from coordination.study.continuity import Continuity
from coordination.study.currents import Currents
from coordination.study.doubts import Doubts
from coordination.study.explain_load import LoadSteps
from coordination.study.fault_steps import FaultSteps
from coordination.study.figures import Figures
from coordination.study.loads import Loads
from coordination.study.port import Ports
from coordination.study.protection import Guards
from coordination.study.reach import Reach
from coordination.study.surroundings import Surroundings
from coordination.study.time_current import TimeCurrent
from coordination.study.zones import Zones
from coordination.trace import Value


def study(network: Network, basis: AmpacityBasis | None = None) -> Study:
    """Study one network; quantities are worked out when first asked for.

    basis -- how conductors' continuous current is found; without one every ampacity is Unknown
    """
    return Study(network, basis)


class Study(Currents, Surroundings, TimeCurrent, Budgets, Continuity):
    """Every quantity of one condition; each accessor gives the number with its derivation."""

    def __init__(self, network: Network, basis: AmpacityBasis | None) -> None:
        self.network = network
        self.basis = basis
        self._figures = Figures(network)
        self._loads = Loads(self._figures)
        self._doubts = Doubts(self._figures, self._loads)
        self._reach = Reach(self._figures)
        most = Ports(self._figures, largest=True)
        least = Ports(self._figures, largest=False)
        self._load_steps = LoadSteps(self._figures, self._loads, self._doubts, least)
        self._faults = FaultSteps(
            self._figures, self._doubts, most, least, Zones(self._figures, self._reach)
        )
        self._guards = Guards(self._figures, self._reach)
        self._bars = Bars(network, self._loads, self._doubts, self._load_steps)
        self._drawn = network.loops.kept
        # Kept with the basis itself, or another one could come to have its id.
        own = self._drawn.setdefault(("ampacity", id(basis)), (basis, {}))
        self._ampacities: dict[tuple[str, str, float | None], Value] = own[1]
        self._kept: dict[tuple[str, str, str], Any] = {}

    @cached_property
    def problems(self) -> tuple[str, ...]:
        """What is odd about the network as a whole, a phrase each."""
        return islands.problems(self._figures, self._loads)
