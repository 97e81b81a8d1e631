"""The accessors of a study about currents and voltages, in faults and under load.

Numbers come from `figures` and `loads`, what is unknown from `doubts`, derivations from `ports` and
`explain_load`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from coordination.model import Busbar, Converter, Element, Equipment, Source
from coordination.study.combine import KIRCHHOFF, NODAL
from coordination.study.deferred import deferred
from coordination.study.keeping import Keeping
from coordination.trace import Derived, Unknown, Value

if TYPE_CHECKING:
    from coordination.study.busbars import Bars
    from coordination.study.doubts import Doubts
    from coordination.study.explain_load import LoadSteps
    from coordination.study.fault_steps import FaultSteps
    from coordination.study.loads import Loads

#: Design current [A] below which there is none: what rounding leaves of sums that cancel.
NO_CURRENT = 1e-9


class Currents(Keeping):
    """What a study knows about currents and voltages; `Study` is one."""

    if TYPE_CHECKING:
        _bars: Bars
        _doubts: Doubts
        _faults: FaultSteps
        _load_steps: LoadSteps
        _loads: Loads

    def duty(self, element: Element) -> Value:
        """Largest current [A] through a device for a bolted fault at either of its terminals.

        Its own resistance neglected, both terminals at fault potential: what arrives from one
        side, or from the other. Max bound. Of an open switch too.
        """
        return self._once("duty", element.name, lambda: self._faults.duty(element))

    def fault_max(self, point: str) -> Value:
        """Largest current [A] of a bolted fault at a point."""
        return self._once("fault_max", point, lambda: self._faults.largest(self._at(point)))

    def fault_min(self, point: str) -> Value:
        """Least current [A] of a bolted fault at a point."""
        return self._once("fault_min", point, lambda: self._faults.smallest(self._at(point)))

    def fault_min_through(self, element: Element) -> Value:
        """Least current [A] through an element for a bolted fault in what it protects."""
        return self._once("through", element.name, lambda: self._faults.through(element))

    def time_constant(self, point: str) -> Value:
        """Time constant [s] of the fault current at a point: L / R of cables, max bound.

        L is the rate at which the impedance seen from the point grows with frequency (the first
        moment of the current's rise): exact for one loop. Batteries' own inductance is not in it.
        """
        return self._once("tau", point, lambda: self._faults.time_constant(self._at(point)))

    def load(self, element: Element) -> Value:
        """Design current [A]: the largest of the load cases (see `loads`)."""
        return self._once("load", element.name, lambda: self._load(element))

    def share(self, element: Element, equipment: Equipment) -> Value:
        """Share [1] of whatever the equipment draws more, for a moment, that comes by an element.

        Batteries give it. Where none is connected all of it is taken to come this way.
        """
        return self._once(
            "share", element.name, lambda: self._share(element, equipment), equipment.name
        )

    def load_voltage(self, point: str) -> Value:
        """Voltage [V] at a point with everything drawing and batteries alone, at low charge."""
        return self._once("load_voltage", point, lambda: self._load_voltage(point))

    def drop(self, equipment: Equipment | Converter) -> Value:
        """Voltage [V] lost between the batteries' terminals and the equipment."""
        return self._once("drop", equipment.name, lambda: self._drop(equipment))

    def battery_current(self, source: Source) -> Value:
        """Largest current [A] that a source gives in this condition."""
        return self._once("battery", source.name, lambda: self._bars.source_current(source))

    def section_load(self, busbar: Busbar) -> Value:
        """Current [A] in a busbar's busiest section; the sum of what leaves it without an order."""
        return self._once("section", busbar.name, lambda: self._bars.section(busbar))

    def incoming(self, busbar: Busbar) -> Value:
        """Sum of the currents [A] that flow into a busbar."""
        return self._once("incoming", busbar.name, lambda: self._bars.incoming(busbar))

    def outgoing(self, busbar: Busbar) -> Value:
        """Sum of the currents [A] that flow out of a busbar."""
        return self._once("outgoing", busbar.name, lambda: self._bars.outgoing(busbar))

    def _load(self, element: Element) -> Value:
        branch = self._figures.branch_of.get(element.name)
        if branch is None:
            quantity = f"design current of {element.name}: open"
            return Derived(quantity, "I", 0.0, "A", source=KIRCHHOFF)
        missing = self._doubts.load(branch)
        if missing:
            return Unknown(f"design current of {element.name}", missing)
        value = abs(self._loads.governing(branch)[1])
        if value < NO_CURRENT:
            quantity = f"design current of {element.name}: none flows"
            return Derived(quantity, "I", 0.0, "A", source=KIRCHHOFF)
        return deferred("I", value, "A", lambda: self._load_steps.current(branch), stated=True)

    def _share(self, element: Element, equipment: Equipment) -> Value:
        quantity = f"share of {equipment.name} that comes by {element.name}"
        branch, point = self._figures.branch_of.get(element.name), self._at(equipment.name)
        island = self._figures.shape.island
        if branch is None or island[self._figures.shape.start[branch]] != island[point]:
            return Derived(quantity, "s", 0.0, "", source=KIRCHHOFF)
        if not self._figures.shape.island_batteries[island[point]]:
            return Derived(f"{quantity}, at most", "s", 1.0, "", source=KIRCHHOFF)
        missing = self._doubts.sharing(branch)
        if missing:
            return Unknown(quantity, missing)
        return Derived(quantity, "s", abs(self._loads.spread(point)[branch]), "", source=NODAL)

    def _load_voltage(self, point: str) -> Value:
        at = self._at(point)
        missing = self._doubts.voltage(at)
        if missing:
            return Unknown(f"voltage under load at {point}", missing)
        return self._load_steps.voltage(at, self._loads.cases[0].voltages[at])

    def _drop(self, equipment: Equipment | Converter) -> Value:
        name = equipment.name if isinstance(equipment, Equipment) else f"{equipment.name}.input"
        at = self._at(name)
        quantity = f"voltage lost on the way to {name}"
        missing = self._doubts.drop(at)
        if missing:
            return Unknown(quantity, missing)
        source = self._loads.reference(at)
        if source is None:
            return Unknown(quantity, (f"{name}: not connected to any source",))
        voltages = self._loads.cases[0].voltages
        value = voltages[source] - voltages[at]
        return deferred("U", value, "V", lambda: self._load_steps.drop(at, source, value, quantity))
