"""One boundary of a time-current band, and what it promises at a current.

Points are (current [A], time [s]) by rising current, time never rising. Between points a drawn
curve is read on a straight line in log-log; a standard's gates promise nothing between them but
that more current never takes longer, and that melting never needs less I²t at less current.

Past the last point: less current loses more heat on the way, so the I²t of melting only falls as
current rises, down to the adiabatic one. The slowest side of a fuse therefore keeps the I²t of its
last point at most: physics, not the part's statement. Its fastest side may keep it only where the
last point is adiabatic already; from a slower one nothing is promised. A breaker's tripping has no
such law: its slowest side keeps the time of the last point, its fastest side promises nothing.
Below its first point a slowest side promises nothing.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from math import exp, log
from typing import Literal

#: Longest time [s] taken as adiabatic, in which no heat escapes from what melts: IEC 60269-1
#: tabulates pre-arcing I²t at 10 ms (from memory).
ADIABATIC_TIME = 0.01

Point = tuple[float, float]
Basis = Literal["point", "line", "gate", "physics", "not bounded"]


@dataclass(frozen=True, slots=True)
class Bound:
    """A time [s] at a current [A], and what it rests on; None: not bounded."""

    time: float | None
    basis: Basis


@dataclass(frozen=True, slots=True)
class Boundary:
    """The fastest opening (`fastest`) or the slowest clearing of one device.

    gates -- the points are a standard's gates, not a drawn curve
    melts -- what opens melts; False: it is released by a mechanism
    """

    points: tuple[Point, ...]
    fastest: bool
    gates: bool = False
    melts: bool = True

    def at(self, current: float) -> Bound:
        """The time promised at a current [A]: "no sooner than" or "no later than" [s]."""
        points = self.points
        if not points:
            return Bound(None, "not bounded")
        if current < points[0][0]:
            return Bound(points[0][1], "physics") if self.fastest else Bound(None, "not bounded")
        upper = bisect_right(points, current, key=lambda point: point[0])
        if points[upper - 1][0] == current:
            return Bound(points[upper - 1][1], "point")
        if upper == len(points):
            return self._past(points[-1], current)
        return self._between(points[upper - 1], points[upper], current)

    def _past(self, last: Point, current: float) -> Bound:
        """Past the last point, towards larger currents."""
        if self.melts and (not self.fastest or last[1] <= ADIABATIC_TIME):
            return Bound(constant_energy_time(*last, current), "physics")
        return Bound(None, "not bounded") if self.fastest else Bound(last[1], "gate")

    def _between(self, left: Point, right: Point, current: float) -> Bound:
        if not self.gates:
            return Bound(on_log_line(left, right, current), "line")
        if self.fastest:
            energy = constant_energy_time(*right, current) if self.melts else right[1]
            return Bound(min(left[1], energy), "gate")
        return Bound(left[1], "gate")


def constant_energy_time(point_current: float, point_time: float, current: float) -> float:
    """The time [s] at `current` with the I²t of a point: t = t₁ (I₁ / I)²."""
    return point_time * (point_current / current) ** 2


def on_log_line(left: Point, right: Point, current: float) -> float:
    """The time [s] on the straight log-log line between two points."""
    (current_1, time_1), (current_2, time_2) = left, right
    share = log(current / current_1) / log(current_2 / current_1)
    return exp(log(time_1) + share * log(time_2 / time_1))
