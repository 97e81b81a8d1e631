"""How one device opens: its two boundaries together with its stated melting and clearing I²t."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import exp, log

from coordination.curves.boundary import (
    ADIABATIC_TIME,
    Bound,
    Boundary,
    Point,
    constant_energy_time,
)


@dataclass(frozen=True, slots=True)
class Opening:
    """What a fuse or breaker promises about opening.

    name                     -- the device, for reasoning
    fastest, slowest         -- boundaries of its band
    melting_i2t, clearing_i2t -- stated energies [A²s], or None
    """

    name: str
    fastest: Boundary
    slowest: Boundary
    melting_i2t: float | None = None
    clearing_i2t: float | None = None

    def no_sooner_than(self, current: float) -> Bound:
        """The earliest it can open [s]; None where nothing forbids opening at once."""
        drawn = self.fastest.at(current)
        if self.melting_i2t is None:
            return drawn
        melted = self.melting_i2t / current**2
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

    def standard_only(self) -> bool:
        """Whether its band is a standard's gates: overlapping bands then prove nothing."""
        return self.fastest.gates or self.slowest.gates

    def corners(self) -> tuple[float, ...]:
        """Currents [A] at which the promised times change slope or jump."""
        return tuple(sorted({*self._fast_corners(), *self._slow_corners()}))

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
