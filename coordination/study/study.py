"""The study of one network: one accessor for each quantity a rule may ask for.

Numbers come from `figures` and `loads`, what is unknown from `doubts`, derivations from `ports` and
`explain_load`; this module only brings them together and keeps every answer.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import Any, TypeVar

from coordination.ampacity import AmpacityBasis
from coordination.model import (
    Busbar,
    Condition,
    Converter,
    Element,
    Equipment,
    Named,
    Source,
    System,
)
from coordination.network import Network
from coordination.study import islands, legs, subjects
from coordination.study.busbars import Bars
from coordination.study.combine import KIRCHHOFF, NODAL
from coordination.study.deferred import deferred
from coordination.study.doubts import Doubts
from coordination.study.explain_load import LoadSteps
from coordination.study.fault_steps import FaultSteps
from coordination.study.figures import Figures
from coordination.study.kinds import BranchDevices, Leg, Protection
from coordination.study.loads import Loads
from coordination.study.port import Ports
from coordination.study.protection import Guards
from coordination.study.reach import Reach, is_protective
from coordination.study.subjects import Drawing
from coordination.study.time_current import TimeCurrent
from coordination.study.zones import Zones
from coordination.trace import Derived, Unknown, Value

T = TypeVar("T")

#: Stands for an answer that was not worked out yet.
_NOTHING: Any = object()


def study(network: Network, basis: AmpacityBasis | None = None) -> Study:
    """Study one network; quantities are worked out when first asked for.

    basis -- how conductors' continuous current is found; without one every ampacity is Unknown
    """
    return Study(network, basis)


class Study(TimeCurrent):
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

    def __setattr__(self, name: str, value: Any) -> None:
        """Nothing can be set once the study is made: rules share it."""
        if "_kept" in self.__dict__:
            raise AttributeError(f"a study is read-only: {name} cannot be set")
        self.__dict__[name] = value

    @property
    def system(self) -> System:
        """The system as written."""
        return self.network.system

    @property
    def condition(self) -> Condition:
        """The condition studied."""
        return self.network.condition

    def option(self, pack: str, name: str) -> Any:
        """What the system file states under `options:` for a pack, or the option's default.

        None where it is not stated; quantities in SI, flags as bool, dates as `datetime.date`.
        """
        return self.system.options.get(pack, {}).get(name)

    def subjects(self, kind: str) -> tuple[Any, ...]:
        """The model's objects of a kind that rules may name, in the file's order.

        Raises ValueError if there is no such kind.
        """
        return self._of_drawing("subjects", kind, lambda: subjects.of_kind(self.system, kind))

    def closed(self, element: Element) -> bool:
        """Whether an element is closed in this condition."""
        return element.name in self._figures.branch_of

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

    def voltage_max(self, subject: str | Named) -> Value:
        """Highest system voltage [V] at a point (by name), or at either end of an element."""
        name = subject if isinstance(subject, str) else subject.name
        return self._once("voltage", name, lambda: self._islands.highest(subject))

    def island_nominal(self, point: str) -> Value:
        """Nominal voltage [V] of the piece of the system that a point belongs to."""
        return self._once("nominal", point, lambda: self._islands.nominal(self._at(point)))

    def sources_nominal(self, point: str) -> Value:
        """Highest nominal voltage [V] of the batteries of that piece, by their parts."""
        return self._once(
            "own nominal", point, lambda: self._islands.sources_nominal(self._at(point))
        )

    def crossings(self, element: Element) -> tuple[bool, bool]:
        """Whether current can cross from start to end, and from end to start (faults count)."""
        branch = self._figures.branch_of.get(element.name)
        return (False, False) if branch is None else self._reach.sides_fed(branch)

    def protectors(self, subject: Element | Busbar, end: str | None = None) -> Protection:
        """What stands between one end of a subject and the sources that feed that end.

        end -- "start" or "end" of an element; None for a busbar
        """
        return self._once(
            "protectors", subject.name, lambda: self._guards.of(subject, end), end or ""
        )

    def branch_devices(self, busbar: Busbar) -> BranchDevices:
        """The devices around a busbar: behind which a source stands, and the others."""
        return self._once("branches", busbar.name, lambda: self._guards.around(busbar))

    def series_devices(self, element: Element) -> tuple[Element, ...]:
        """The other protective devices that the element's own current, all of it, flows through.

        Those of its circuit as far as no other circuit is joined between.
        """
        return self._of_drawing(
            "series",
            element.name,
            lambda: tuple(e for e in self._drawing.same_current(element) if is_protective(e)),
        )

    def neighbours(self, element: Element) -> tuple[Element, ...]:
        """Cables that end on the element's own terminals."""
        return self._of_drawing(
            "neighbours", element.name, lambda: self._drawing.neighbours(element)
        )

    def legs(self, element: Element) -> tuple[Leg, ...]:
        """The conductors of a cable's loop; empty for anything else."""
        return self._of_drawing("legs", element.name, lambda: legs.of(self.network.loops, element))

    def ampacity(self, element: Element, leg: Leg) -> Value:
        """Continuous current [A] of a leg as installed, by the basis of the study."""
        nominal = self.sources_nominal(element.start)
        volts = nominal.value if isinstance(nominal, Derived) else None
        key = (element.name, leg.name, volts)
        if key not in self._ampacities:
            self._ampacities[key] = legs.ampacity(self, element, leg, volts)
        return self._ampacities[key]

    def conductor_temperature(self, element: Element, leg: Leg) -> Value:
        """Temperature [°C] of a leg's conductor under its design current."""
        return self._once(
            "temperature", element.name, lambda: legs.temperature(self, element, leg), leg.name
        )

    def ambient(self, subject: Named) -> Derived:
        """Air temperature [°C] of the place where a subject stands."""
        place = getattr(subject, "place", None)
        where = "" if place is None else place.name
        return self._of_drawing("ambient", where, lambda: subjects.ambient(subject))

    @cached_property
    def problems(self) -> tuple[str, ...]:
        """What is odd about the network as a whole, a phrase each."""
        return islands.problems(self._figures, self._loads)

    @cached_property
    def _islands(self) -> islands.Islands:
        return islands.Islands(self._figures)

    @property
    def _drawing(self) -> Drawing:
        return self._of_drawing("drawing", "", lambda: Drawing(self.system))

    def _at(self, point: str) -> int:
        return self.network.index[point]

    def _once(self, what: str, name: str, make: Callable[[], T], more: str = "") -> T:
        key = (what, name, more)
        kept: T = self._kept.get(key, _NOTHING)
        if kept is _NOTHING:
            kept = self._kept[key] = make()
        return kept

    def _of_drawing(self, what: str, name: str, make: Callable[[], T]) -> T:
        """As `_once`, for what is the same in every condition: kept for all of the system's."""
        key = (what, name)
        kept: T = self._drawn.get(key, _NOTHING)
        if kept is _NOTHING:
            kept = self._drawn[key] = make()
        return kept

    def _load(self, element: Element) -> Value:
        branch = self._figures.branch_of.get(element.name)
        if branch is None:
            quantity = f"design current of {element.name}: open"
            return Derived(quantity, "I", 0.0, "A", source=KIRCHHOFF)
        missing = self._doubts.load(branch)
        if missing:
            return Unknown(f"design current of {element.name}", missing)
        value = abs(self._loads.governing(branch)[1])
        return deferred("I", value, "A", lambda: self._load_steps.current(branch))

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
