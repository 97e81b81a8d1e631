"""How hot one leg of a cable gets at each current that its devices must clear.

What several devices let through adds up as (√J₁ + √J₂ + …)² at most, each with its own share of the
current until it has cleared (Minkowski's inequality); what lasts longer than a short fault does,
warms the leg from there.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf, sqrt
from typing import Any, NamedTuple

from coordination.physics.adiabatic import temperature_after
from coordination.physics.overload import overload_temperature, warming_time
from coordination.physics.temperature import load_temperature
from coordination.rules import Derived, Unknown, Value
from fusewright_fundamentals.heat_limits import (
    energy_limit,
    final_temperature,
    initial_temperature,
)

#: Longest time [s] in which no heat is taken to escape.
ADIABATIC = 5.0
#: Overload [times the ampacity] that a cable bears until its device opens, however long it takes.
BEARABLE = 1.45
#: Step between the currents looked at, as a share; temperatures are smooth between them.
STEP = 1.02


class Part(NamedTuple):
    """One device's part of a current: through it [A], until [s] it has cleared."""

    clearer: Any
    current: float
    time: float


class Course(NamedTuple):
    """What happens at one current: parts that end quickly, parts that last; all others never end.

    severity -- what is reached over what is allowed [1]; 0 where it is borne; None: not known
    """

    current: float
    quick: tuple[Part, ...]
    slow: tuple[Part, ...]
    severity: float | None

    @property
    def energy(self) -> float:
        """I²t [A²s] of the quick parts together, at most."""
        return sum(part.current * sqrt(part.time) for part in self.quick) ** 2

    @property
    def lasting(self) -> float:
        """Current [A] of the parts that last."""
        return sum(part.current for part in self.slow)

    @property
    def last(self) -> Part | None:
        """The last part that ends."""
        return max((*self.quick, *self.slow), key=lambda part: part.time, default=None)


@dataclass(frozen=True, slots=True)
class Heating:
    """One leg, fed from one end, with what is known of it.

    initial, final, limit -- [°C], [°C], let-through [A²s] of one of its parallel cables
    ampacity -- [A] of the whole leg, or Unknown: then only short faults can be judged
    """

    cable: Any
    study: Any
    span: Any
    leg: Any
    initial: Derived
    final: Derived
    limit: Derived
    ampacity: Value

    def course(self, current: float) -> Course:
        """What a current [A] in the cable does."""
        quick: list[Part] = []
        slow: list[Part] = []
        for time, clearer in self.span.clearings(current):
            if time is not None:
                part = Part(clearer, current * clearer.share.value, time)
                (quick if time <= ADIABATIC else slow).append(part)
        found = Course(current, tuple(quick), tuple(slow), None)
        return found._replace(severity=self._severity(found))

    def _severity(self, course: Course) -> float | None:
        energy = course.energy / self.leg.runs**2
        severity: float = energy / self.limit.value if self.limit.value else inf
        if not course.slow:
            return severity
        if isinstance(self.ampacity, Unknown):
            return None
        if course.lasting <= BEARABLE * self.ampacity.value:
            return severity
        return self.temperature(course) / self.final.value

    def borne(self, course: Course) -> bool:
        """Whether what lasts is no more than the cable bears, and nothing ends quickly."""
        limit = self.ampacity
        within = isinstance(limit, Derived) and course.lasting <= BEARABLE * limit.value
        return within and not course.quick

    def temperature(self, course: Course) -> float:
        """Temperature [°C] when the last part has ended."""
        assert isinstance(self.ampacity, Derived)
        ambient, runs = self.study.ambient(self.cable).value, self.leg.runs
        rated, area = self.leg.insulation_temperature.value, self.leg.area.value
        limit = self.ampacity.value
        before = temperature_after(self.initial.value, course.energy / runs**2, area)
        steady = load_temperature(course.lasting, limit, ambient, rated, ambient)
        tau = warming_time(area, limit / runs, ambient, rated)
        lasts = max(part.time for part in course.slow)
        return max(before, overload_temperature(steady, before, tau, lasts))


def heating_of(cable: Any, study: Any, span: Any, leg: Any) -> Heating | Unknown:
    """The figures of a leg fed from one end, or what is missing for them."""
    final = final_temperature(leg)
    initial = initial_temperature(cable, study, leg)
    limit = energy_limit(leg, initial, final)
    for value in (initial, final, limit):
        if isinstance(value, Unknown):
            return value
    assert isinstance(initial, Derived)
    assert isinstance(final, Derived)
    assert isinstance(limit, Derived)
    return Heating(cable, study, span, leg, initial, final, limit, study.ampacity(cable, leg))


def worst_course(heating: Heating) -> Course | Unknown:
    """The current that does most harm, of all that flow and that the devices must clear.

    Where nothing does any, the largest current. Unknown where the ampacity would be needed and is
    not known.
    """
    worst: Course | None = None
    for current in _currents(heating.span):
        course = heating.course(current)
        if course.severity is None:
            assert isinstance(heating.ampacity, Unknown)
            return heating.ampacity
        if worst is None or course.severity > (worst.severity or 0.0):
            worst = course
    assert worst is not None
    return worst


def _currents(span: Any) -> Iterator[float]:
    """Corners of the clearing times, both sides of each, and steps between, from the lowest up."""
    highest = span.highest.value
    lowest = span.least
    yield highest
    corners = [corner for corner in span.corners() if lowest < corner < highest]
    if lowest:
        corners.insert(0, lowest)
    for corner, after in zip(corners, _next(corners, highest), strict=True):
        yield from (corner * (1 - 1e-9), corner, corner * (1 + 1e-9))
        current = corner * STEP
        while current < after:
            yield current
            current *= STEP


def _next(corners: Sequence[float], highest: float) -> list[float]:
    return [*corners[1:], highest] if corners else []
