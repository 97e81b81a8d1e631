"""How hot one leg of a cable gets at each current that its devices must clear.

What several devices let through adds up as (√J₁ + √J₂ + …)² at most, each with its own share of the
current until it has cleared (Minkowski's inequality), and with all that outlasts them; what lasts
longer than a short fault does, warms the leg from there, part after part.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import inf, sqrt
from typing import Any, NamedTuple

from coordination.physics.adiabatic import MELTING_POINT, temperature_after
from coordination.physics.overload import overload_temperature, warming_time
from coordination.physics.temperature import load_temperature
from coordination.rules import ROUNDING, Derived, Unknown, Value
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
    """What happens at one current: parts that end quickly, parts that last, what never ends.

    endless  -- current [A] that no device ends
    severity -- what is reached over what is allowed [1]; 0 where it is borne; None: not known
    """

    current: float
    quick: tuple[Part, ...]
    slow: tuple[Part, ...]
    endless: float
    severity: float | None

    @property
    def lasting(self) -> float:
        """Current [A] that flows on when the quick parts have ended."""
        return _lasting(self.slow, self.endless)

    @property
    def energy(self) -> float:
        """I²t [A²s] until the quick parts have ended, at most."""
        return _energy(self.quick, self.lasting)

    @property
    def last(self) -> Part | None:
        """The last part that ends."""
        return max((*self.quick, *self.slow), key=lambda part: part.time, default=None)


def _share(energy: float, limit: float) -> float:
    """Of what is allowed [1]: nothing is within any limit, even one of 0."""
    if energy <= 0.0:
        return 0.0
    return energy / limit if limit else inf


def _energy(quick: Iterable[Part], lasting: float) -> float:
    total = longest = 0.0
    for part in quick:
        total += part.current * sqrt(part.time)
        longest = max(longest, part.time)
    total += lasting * sqrt(longest)
    return total * total


def _lasting(slow: Iterable[Part], endless: float) -> float:
    return sum([part.current for part in slow], endless)


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
        endless = 0.0
        for band in self.span.bands:
            time = band.lasts(current)
            if time is None:
                endless += current * band.share
            else:
                part = Part(band.clearer, current * band.share, time)
                (quick if time <= ADIABATIC else slow).append(part)
        severity = self._severity(quick, slow, endless)
        return Course(current, tuple(quick), tuple(slow), endless, severity)

    def _severity(
        self, quick: Sequence[Part], slow: Sequence[Part], endless: float
    ) -> float | None:
        lasting = _lasting(slow, endless)
        energy = _energy(quick, lasting) / self.leg.runs**2
        severity = _share(energy, self.limit.value)
        if not slow:
            return severity
        if isinstance(self.ampacity, Unknown):
            return None
        if lasting <= BEARABLE * self.ampacity.value:
            return severity
        return self._hottest(energy, slow, endless) / self.final.value

    def borne(self, course: Course) -> bool:
        """Whether what lasts is no more than the cable bears, and nothing ends quickly."""
        limit = self.ampacity
        within = isinstance(limit, Derived) and course.lasting <= BEARABLE * limit.value
        return within and not course.quick

    @property
    def warming(self) -> float:
        """Time constant [s] with which each of the parallel cables warms, at least."""
        assert isinstance(self.ampacity, Derived)
        ambient, rated = self.study.ambient(self.cable).value, self.leg.insulation_temperature.value
        return warming_time(
            self.leg.area.value, self.ampacity.value / self.leg.runs, ambient, rated
        )

    def steady(self, current: float) -> float:
        """Temperature [°C] that a current in the leg would lead to."""
        assert isinstance(self.ampacity, Derived)
        ambient, rated = self.study.ambient(self.cable).value, self.leg.insulation_temperature.value
        return load_temperature(current, self.ampacity.value, ambient, rated, ambient)

    def after(self, energy: float) -> float:
        """Temperature [°C] after an I²t [A²s] in one of the parallel cables.

        Molten copper is hot enough to fail, and a number.
        """
        initial = min(self.initial.value, MELTING_POINT)
        return min(temperature_after(initial, energy, self.leg.area.value), MELTING_POINT)

    def _hottest(self, energy: float, slow: Iterable[Part], endless: float) -> float:
        """Highest temperature [°C] while one part after the other ends."""
        hottest = now = self.after(energy)
        lasting, tau, earlier = _lasting(slow, endless), self.warming, 0.0
        for part in in_turn(slow):
            now = overload_temperature(self.steady(lasting), now, tau, part.time - earlier)
            hottest = max(hottest, now)
            lasting, earlier = lasting - part.current, part.time
        return hottest


def in_turn(parts: Iterable[Part]) -> list[Part]:
    """Parts in the order in which they end."""
    return sorted(parts, key=lambda part: part.time)


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
    ampacity = study.ampacity(cable, leg)
    if isinstance(ampacity, Derived) and ampacity.value <= 0.0:
        ampacity = Unknown("ampacity", (f"{cable.name}: an ampacity above 0 A in air so hot",))
    return Heating(cable, study, span, leg, initial, final, limit, ampacity)


def worst_course(heating: Heating) -> Course | Unknown:
    """The current that does most harm, of all that flow and that the devices must clear.

    The largest current unless another is worse by more than rounding. Unknown where the ampacity
    would be needed and is not known.
    """
    worst: Course | None = None
    for course in _courses(heating):
        if course.severity is None:
            assert isinstance(heating.ampacity, Unknown)
            return heating.ampacity
        if worst is None or course.severity > (worst.severity or 0.0) * (1 + ROUNDING):
            worst = course
    assert worst is not None
    return worst


def _courses(heating: Heating) -> Iterator[Course]:
    """At corners of the clearing times, on either side where it matters, and at steps between.

    No steps where all that ends, ends quickly: between two corners the logarithm of its energy is
    a convex function of the logarithm of the current (a sum of powers), largest at either corner.
    """
    span = heating.span
    highest = span.highest.value
    lowest = span.least
    course = heating.course(highest)
    yield course
    jumps = span.jumps()
    corners = [corner for corner in span.corners() if lowest < corner < highest]
    if lowest:
        corners.insert(0, lowest)
    for corner, after in pairwise([*corners, highest]):
        if corner in jumps or course.slow:
            yield heating.course(corner * (1 - 1e-9))
        course = heating.course(corner)
        yield course
        if corner in jumps:
            course = heating.course(corner * (1 + 1e-9))
            yield course
        current = corner * STEP
        borne = _borne_to(heating, course, after)
        while course.slow and current < after:
            if current >= borne:
                course = heating.course(current)
                yield course
            current *= STEP


def _borne_to(heating: Heating, course: Course, after: float) -> float:
    """Current [A], below `after`, up to which everything goes on as in this course, and is borne.

    With rising current a part may end quickly that lasted, never the other way.
    """
    if not course.slow or not heating.borne(course):
        return 0.0
    assert isinstance(heating.ampacity, Derived)
    limit = course.current * BEARABLE * heating.ampacity.value / course.lasting
    last = heating.course(min(limit, after) * (1 - 1e-9))
    return last.current if len(last.slow) == len(course.slow) else 0.0
