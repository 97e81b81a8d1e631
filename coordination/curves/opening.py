"""How one device opens: its two boundaries together with its stated melting and clearing I²t."""

from __future__ import annotations

from collections.abc import Callable
from itertools import chain, pairwise
from math import exp, inf, log

from catalogue.frozen import dataclass, field
from coordination.curves.boundary import (
    ADIABATIC_TIME,
    Bound,
    Boundary,
    Point,
    constant_energy_time,
)

#: How far beside a corner the other side of a jump is looked at (relative).
BESIDE = 1e-9


def beside(jump: float) -> tuple[float, float, float]:
    """Both sides of a jump, and the jump itself [A]."""
    return jump * (1 - BESIDE), jump, jump * (1 + BESIDE)


@dataclass(frozen=True, slots=True)
class Opening:
    """What a fuse or breaker promises about opening.

    name                     -- the device, for reasoning
    fastest, slowest         -- boundaries of its band
    melting_i2t, clearing_i2t -- stated energies [A²s], or None
    carries                  -- current [A] it carries for good in its place, or None
    """

    name: str
    fastest: Boundary
    slowest: Boundary
    melting_i2t: float | None = None
    clearing_i2t: float | None = None
    carries: float | None = None
    kept: dict[str, tuple[float, ...]] = field(default_factory=dict, repr=False, compare=False)
    times: dict[float, float] = field(default_factory=dict, repr=False, compare=False)

    def of(self, name: str) -> Opening:
        """The same of another device, made of the same part and in such a place too."""
        return Opening(
            name, self.fastest, self.slowest, self.melting_i2t, self.clearing_i2t, self.carries,
            self.kept, self.times,
        )  # fmt: skip

    def stays_closed(self, current: float) -> Bound:
        """As `no_sooner_than`, and for ever [s] at a current it carries for good."""
        if self.carries is not None and current <= self.carries:
            return Bound(inf, "rating")
        return self.no_sooner_than(current)

    def no_sooner_than(self, current: float) -> Bound:
        """The earliest it can open [s]; None where nothing forbids opening at once.

        Past the last point a stated melting I²t counts, being the least; not that of the point.
        """
        drawn = self.fastest.at(current)
        if self.melting_i2t is None:
            return drawn
        melted = self.melting_i2t / current**2
        if drawn.basis == "physics":
            return Bound(min(melted, drawn.time or melted), "physics")
        if drawn.time is None or melted > drawn.time:
            return Bound(melted, "physics")
        return drawn

    def cleared_by(self, current: float) -> Bound:
        """The latest it has cleared [s]; None where it may never open."""
        drawn = self.slowest.at(current)
        if self.clearing_i2t is None:
            return drawn
        cleared = self.clearing_i2t / current**2
        if cleared <= ADIABATIC_TIME and (drawn.time is None or cleared < drawn.time):
            return Bound(cleared, "physics")
        return drawn

    def latest(self, current: float) -> float:
        """The time of `cleared_by` alone [s], quickly; infinite where it may never open."""
        time = self.slowest.time(current)
        if self.clearing_i2t is not None:
            energy = self.clearing_i2t / current**2
            if energy <= ADIABATIC_TIME and energy < time:
                return energy
        return time

    def soonest(self, current: float) -> float:
        """The time of `stays_closed` alone [s], quickly; 0 where it may open at once."""
        if self.carries is not None and current <= self.carries:
            return inf
        time = self.fastest.time(current)
        if self.melting_i2t is None:
            return time
        energy = self.melting_i2t / current**2
        past = not self.fastest.currents or current > self.fastest.currents[-1]
        return (min(energy, time) if time else energy) if past else max(energy, time)

    def clears_by_own_data(self, bound: Bound) -> bool:
        """Whether a latest clearing tells what the device does, and is not only a bound on it."""
        return _own_data(bound, self.slowest, self.clearing_i2t)

    def opens_by_own_data(self, bound: Bound) -> bool:
        """Whether an earliest opening tells what the device does, and is not only a bound on it."""
        return _own_data(bound, self.fastest, self.melting_i2t)

    def standard_only(self) -> bool:
        """Whether its band is a standard's gates: overlapping bands then prove nothing."""
        return self.fastest.gates or self.slowest.gates

    def corners(self) -> tuple[float, ...]:
        """Currents [A] at which the promised times change slope or jump."""
        return (*self.fast_corners(), *self.slow_corners())

    def fast_corners(self) -> tuple[float, ...]:
        """Those of its earliest opening, by rising current."""
        return self._once("fast corners", self._fast_corners)

    def slow_corners(self) -> tuple[float, ...]:
        """Those of its latest clearing, by rising current."""
        return self._once("slow corners", self._slow_corners)

    def fast_jumps(self) -> tuple[float, ...]:
        """Where its earliest opening jumps, so that both sides must be looked at [A]."""
        carries = () if self.carries is None else (self.carries,)
        return self._once("fast jumps", lambda: {*_jumps(self.fastest), *carries})

    def slow_jumps(self) -> tuple[float, ...]:
        """Where its latest clearing jumps [A]."""
        energy = self.clearing_i2t
        starts = () if energy is None else ((energy / ADIABATIC_TIME) ** 0.5,)
        return self._once("slow jumps", lambda: {*_jumps(self.slowest), *starts})

    def slow_places(self) -> tuple[float, ...]:
        """Where its latest clearing bends or jumps, and beside each jump [A], by rising current."""
        return self._once("slow places", self._slow_places)

    def _slow_places(self) -> set[float]:
        return {*self.slow_corners(), *chain.from_iterable(map(beside, self.slow_jumps()))}

    def latest_at_places(self) -> dict[float, float]:
        """`latest` [s] at each of those currents."""
        if not self.times:
            self.times.update((current, self.latest(current)) for current in self.slow_places())
        return self.times

    def _once(self, what: str, find: Callable[[], set[float]]) -> tuple[float, ...]:
        if what not in self.kept:
            self.kept[what] = tuple(sorted(find()))
        return self.kept[what]

    def _fast_corners(self) -> set[float]:
        found = {point[0] for point in self.fastest.points}
        if self.melting_i2t is not None:
            found |= _crossings(self.fastest, self.melting_i2t)
        return found

    def _slow_corners(self) -> set[float]:
        found = {point[0] for point in self.slowest.points}
        if self.clearing_i2t is not None:
            found |= _crossings(self.slowest, self.clearing_i2t)
            found.add((self.clearing_i2t / ADIABATIC_TIME) ** 0.5)
        return found


def _own_data(bound: Bound, side: Boundary, energy: float | None) -> bool:
    """A curve of the part's own does; constant I²t does where melting is adiabatic and the energy
    is stated for it; a standard's gate never does.
    """
    if bound.basis != "physics" or bound.time is None:
        return bound.basis in ("point", "line") and not side.gates
    adiabatic = bool(side.points) and side.points[-1][1] <= ADIABATIC_TIME
    stated = energy is not None or (adiabatic and not side.gates)
    return bound.time <= ADIABATIC_TIME and stated


def _jumps(side: Boundary) -> tuple[float, ...]:
    """Every point of gates and mechanisms; of a drawn melting curve its two ends."""
    if side.gates or not side.melts or len(side.currents) < 2:
        return side.currents
    return side.currents[0], side.currents[-1]


def _crossings(boundary: Boundary, energy: float) -> set[float]:
    """Currents [A] at which a boundary crosses the line of constant I²t."""
    points = boundary.points
    # Where the time of a point is kept: below the first, past the last, between gates.
    found = {(energy / time) ** 0.5 for _, time in points}
    for left, right in pairwise(points):
        if not boundary.gates:
            found |= _line_crossing(left, right, energy)
        elif boundary.fastest:
            # From here on the I²t of the next gate is less than the time of the one before.
            found.add(right[0] * (right[1] / left[1]) ** 0.5)
    return found


def _line_crossing(left: Point, right: Point, energy: float) -> set[float]:
    over_left = log(left[1] / constant_energy_time(1.0, energy, left[0]))
    over_right = log(right[1] / constant_energy_time(1.0, energy, right[0]))
    if over_left * over_right >= 0:
        return set()
    share = over_left / (over_left - over_right)
    return {exp(log(left[0]) + share * log(right[0] / left[0]))}
