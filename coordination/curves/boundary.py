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
from itertools import pairwise, starmap
from math import inf, log
from typing import Literal, NamedTuple

from catalogue.frozen import dataclass, field

#: Longest time [s] taken as adiabatic, in which no heat escapes from what melts: IEC 60269-1
#: tabulates pre-arcing I²t at 10 ms (from memory).
ADIABATIC_TIME = 0.01

Point = tuple[float, float]
Basis = Literal["point", "line", "gate", "physics", "rating", "not bounded"]


class Bound(NamedTuple):
    """A time [s] at a current [A], and what it rests on; None: not bounded.

    basis -- "point" and "line" are the part's own data; "gate" only says that more current never
             takes longer; "physics" is constant I²t; "rating" a current carried for good
    """

    time: float | None
    basis: Basis


@dataclass(frozen=True, slots=True)
class Boundary:
    """The fastest opening (`fastest`) or the slowest clearing of one device.

    points -- by strictly rising current
    gates -- the points are a standard's gates, not a drawn curve
    melts -- what opens melts; False: it is released by a mechanism
    """

    points: tuple[Point, ...]
    fastest: bool
    gates: bool = False
    melts: bool = True
    currents: tuple[float, ...] = field(init=False, repr=False, compare=False)
    slopes: tuple[float, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "currents", tuple(current for current, _ in self.points))
        object.__setattr__(self, "slopes", tuple(starmap(_slope, pairwise(self.points))))

    def at(self, current: float) -> Bound:
        """The time promised at a current [A]: "no sooner than" or "no later than" [s]."""
        points = self.points
        if not points:
            return Bound(None, "not bounded")
        if current < points[0][0]:
            return Bound(points[0][1], "gate") if self.fastest else Bound(None, "not bounded")
        upper = bisect_right(self.currents, current)
        if points[upper - 1][0] == current:
            return Bound(points[upper - 1][1], "point")
        if upper == len(points):
            return self._past(points[-1], current)
        if self.gates:
            return self._between(points[upper - 1], points[upper], current)
        start, time = points[upper - 1]
        return Bound(time * (current / start) ** self.slopes[upper - 1], "line")

    def time(self, current: float) -> float:
        """The time of `at` alone [s], quickly; where not bounded 0 (fastest) or infinite."""
        place = bisect_right(self.currents, current) - 1
        if place < 0:
            return (self.points[0][1] if self.points else 0.0) if self.fastest else inf
        start, time = self.points[place]
        if start == current:
            return time
        if place == len(self.slopes):
            if self.melts and (not self.fastest or time <= ADIABATIC_TIME):
                return time * (start / current) ** 2
            return 0.0 if self.fastest else time
        if not self.gates:
            drawn: float = time * (current / start) ** self.slopes[place]
            return drawn
        between = self._between(self.points[place], self.points[place + 1], current).time
        return between or (0.0 if self.fastest else inf)

    def _past(self, last: Point, current: float) -> Bound:
        """Past the last point, towards larger currents."""
        if self.melts and (not self.fastest or last[1] <= ADIABATIC_TIME):
            return Bound(constant_energy_time(*last, current), "physics")
        return Bound(None, "not bounded") if self.fastest else Bound(last[1], "gate")

    def _between(self, left: Point, right: Point, current: float) -> Bound:
        """Between two gates."""
        if self.fastest:
            energy = constant_energy_time(*right, current) if self.melts else right[1]
            return Bound(min(left[1], energy), "gate")
        return Bound(left[1], "gate")


def constant_energy_time(point_current: float, point_time: float, current: float) -> float:
    """The time [s] at `current` with the I²t of a point: t = t₁ (I₁ / I)²."""
    return point_time * (point_current / current) ** 2


def _slope(left: Point, right: Point) -> float:
    """Slope in log-log between two points."""
    return log(right[1] / left[1]) / log(right[0] / left[0])
