"""What no time-current curve can be: crossed, out of order, or in milliamperes for amperes.

One list for sheets, imported curves, system files and parts made by code. Times at a current are
read as `between` says: on a straight log-log line, or as a standard's gates.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping
from itertools import pairwise
from math import exp, log
from typing import Final, NamedTuple

from catalogue.problems import FieldProblem
from catalogue.records import Curve

Points = tuple[tuple[float, float], ...]

#: Longest time of a point [s]: twelve days; ISO 8820 has one of 100 hours.
LONGEST: Final = 1e6
#: Largest current of a point, in ratings; more is a slip from A to mA or kA.
MOST_RATINGS: Final = 1000.0
#: A device that may open within this time [s] below its rating is none: the unit is wrong.
SOONEST_BELOW_RATING: Final = 1.0
#: Largest tolerance of an average melting curve.
LARGEST_TOLERANCE: Final = 0.5
#: Rounding of points computed from others.
_ROUNDING: Final = 1e-9


class Crossing(NamedTuple):
    """Where the fastest side lies above the slowest: current [A], both times [s], fast point."""

    current: float
    soonest: float
    latest: float
    number: int


def curve_problems(
    curve: Curve, names: Mapping[str, str], rated_current: float | None
) -> Iterator[FieldProblem]:
    """Everything wrong with a curve beyond the sizes of its numbers.

    names -- attribute of Curve ("fastest") to what it is called ("min_melt")
    """
    if not (curve.fastest or curve.slowest or curve.average_melt):
        yield FieldProblem("curve", "curve has no point")
        return
    found_in_points = tuple(point_problems(curve, names, rated_current))
    yield from found_in_points
    yield from _average_problems(curve, names)
    if not found_in_points and (found := crossing(curve)):
        fast = "average_melt" if curve.average_melt else "fastest"
        said, slow = names.get(fast, fast), names.get("slowest", "slowest")
        about = " with its tolerance" if curve.average_melt else ""
        what = (
            f"curve: at {found.current:g} A {said}{about} ({found.soonest:.4g} s) is above"
            f" {slow} ({found.latest:.4g} s)"
        )
        hint = f"{said} below {slow} everywhere"
        yield FieldProblem(f"curve.{said}.{found.number}", what, hint)


def point_problems(
    curve: Curve, names: Mapping[str, str], rated_current: float | None
) -> Iterator[FieldProblem]:
    """What is wrong within one side: out of order, or no current or time of such a device."""
    for side, said in names.items():
        points = getattr(curve, side)
        yield from _order_problems(f"curve.{said}", points)
        yield from _absurd(side, f"curve.{said}", points, rated_current)


def _order_problems(path: str, points: Points) -> Iterator[FieldProblem]:
    """Currents that do not rise from point to point, and times that do."""
    for number, (before, after) in enumerate(pairwise(points), start=1):
        if after[0] <= before[0]:
            what = f"{path} must go by rising current"
            yield FieldProblem(f"{path}.{number}.current", what, f"more than {before[0]:g} A")
        elif after[1] > before[1]:
            what = f"{path}: more current cannot take longer"
            yield FieldProblem(f"{path}.{number}.time", what, f"at most {before[1]:g} s")


def _absurd(side: str, path: str, points: Points, rating: float | None) -> Iterator[FieldProblem]:
    for number, (current, time) in enumerate(points):
        here = f"{path}.{number}"
        if time > LONGEST:
            what = f"{time:g} s is no time of a curve"
            yield FieldProblem(f"{here}.time", what, f"at most {LONGEST:,.0f} s")
        if rating is None:
            continue
        against = f"{current:g} A against a rating of {rating:g} A"
        if current > MOST_RATINGS * rating:
            what = f"{against} is more than {MOST_RATINGS:g} times"
            hint = f"at most {MOST_RATINGS * rating:g} A"
            yield FieldProblem(f"{here}.current", what, hint)
        elif side == "slowest" and current < rating:
            what = f"{against}: it cannot open there"
            yield FieldProblem(f"{here}.current", what, f"{rating:g} A or more")
        elif current < rating and time < SOONEST_BELOW_RATING:
            what = f"{against}: it cannot open within {time:g} s there"
            hint = f"{rating:g} A or more, or {SOONEST_BELOW_RATING:g} s or more"
            yield FieldProblem(f"{here}.current", what, hint)


def _average_problems(curve: Curve, names: Mapping[str, str]) -> Iterator[FieldProblem]:
    if not curve.average_melt:
        if curve.tolerance is not None:
            yield FieldProblem("curve.tolerance", "a tolerance belongs to average_melt", "none")
        return
    if "average_melt" not in names:
        yield FieldProblem("curve", "only a fuse has an average melting curve")
    if curve.fastest:
        yield FieldProblem("curve.average_melt", "average_melt and min_melt are both stated", "one")
    if curve.gates:
        yield FieldProblem("curve.between", "an average curve is drawn: between is line")
    if curve.tolerance is None:
        what = "average_melt wants its tolerance, as a share of its current"
        yield FieldProblem("curve.tolerance", what, "tolerance: 10 %")
    elif not 0 < curve.tolerance <= LARGEST_TOLERANCE:
        what = f"tolerance must be above 0 and at most {LARGEST_TOLERANCE:.0%}"
        yield FieldProblem("curve.tolerance", what)


def crossing(curve: Curve) -> Crossing | None:
    """The lowest current at which "not before" lies above "open by then"; None: nowhere.

    Both sides are straight, or steps, between their points: looking at every point of both is
    looking everywhere.
    """
    fast, slow = curve.earliest, curve.slowest
    if not (fast and slow):
        return None
    for current in sorted({point[0] for point in fast + slow}):
        soonest = _not_before(fast, current, curve.gates)
        latest = _open_by(slow, current, curve.gates)
        if soonest is not None and latest is not None and soonest > latest * (1 + _ROUNDING):
            number = max(0, bisect_right(fast, current, key=lambda point: point[0]) - 1)
            return Crossing(current, soonest, latest, number)
    return None


def _not_before(points: Points, current: float, gates: bool) -> float | None:
    """The fastest side's time; that of its first point below it, nothing past its last."""
    after = bisect_left(points, current, key=lambda point: point[0])
    if after == len(points):
        return None
    if after == 0 or gates or points[after][0] == current:
        return points[after][1]
    return _on_line(points[after - 1], points[after], current)


def _open_by(points: Points, current: float, gates: bool) -> float | None:
    """The slowest side's time; nothing below its first point, that of its last past it."""
    after = bisect_right(points, current, key=lambda point: point[0])
    if after == 0:
        return None
    if after == len(points) or gates or points[after - 1][0] == current:
        return points[after - 1][1]
    return _on_line(points[after - 1], points[after], current)


def _on_line(left: tuple[float, float], right: tuple[float, float], current: float) -> float:
    """The time [s] on the straight log-log line between two points."""
    share = log(current / left[0]) / log(right[0] / left[0])
    return exp(log(left[1]) + share * log(right[1] / left[1]))
