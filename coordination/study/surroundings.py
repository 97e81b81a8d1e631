"""The accessors of a study about what stands around a subject: sources, devices, legs, places."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from coordination.model import Busbar, Element
from coordination.named import Named
from coordination.study import islands, legs, subjects
from coordination.study.keeping import Keeping
from coordination.study.kinds import BranchDevices, Leg, Protection
from coordination.study.reach import is_protective
from coordination.trace import Derived, Value

if TYPE_CHECKING:
    from coordination.study.protection import Guards
    from coordination.study.reach import Reach


class Surroundings(Keeping):
    """What a study knows about the place of a subject in the system; `Study` is one."""

    if TYPE_CHECKING:
        _ampacities: dict[tuple[str, str, float | None], Value]
        _guards: Guards
        _reach: Reach

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
            self._ampacities[key] = legs.ampacity(self._study, element, leg, volts)
        return self._ampacities[key]

    def conductor_temperature(self, element: Element, leg: Leg) -> Value:
        """Temperature [°C] of a leg's conductor under its design current."""
        return self._once(
            "temperature",
            element.name,
            lambda: legs.temperature(self._study, element, leg),
            leg.name,
        )

    def ambient(self, subject: Named) -> Derived:
        """Air temperature [°C] of the place where a subject stands."""
        place = getattr(subject, "place", None)
        where = "" if place is None else place.name
        return self._of_drawing("ambient", where, lambda: subjects.ambient(subject))

    @cached_property
    def _islands(self) -> islands.Islands:
        return islands.Islands(self._figures)
