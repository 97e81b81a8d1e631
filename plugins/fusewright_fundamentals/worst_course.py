"""The current at which one leg of a cable is heated most, of all that its devices must clear."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import pairwise

from coordination.rules import ROUNDING, Derived, Unknown
from fusewright_fundamentals.heating import BEARABLE, Course, Heating

#: Step between the currents looked at, as a share; temperatures are smooth between them.
STEP = 1.02
#: Share of a severity below which another can neither exceed nor equal it, by rounding neither.
_BELOW = 1 - 4 * ROUNDING


def worst_course(heating: Heating) -> Course | Unknown:
    """The current that does most harm, of all that flow and that the devices must clear.

    The largest current unless another is worse by more than rounding. Unknown where the ampacity
    would be needed and is not known.
    """
    highest = heating.course(heating.span.highest.value)
    found = [highest, *_courses(heating, highest)]
    least = 0.0
    for course in found:
        if isinstance(course, Course):
            if course.severity is None:
                assert isinstance(heating.ampacity, Unknown)
                return heating.ampacity
            least = max(least, course.severity)
    worst = highest
    for each in found:
        near = (each,) if isinstance(each, Course) else _harmful(heating, each, least * _BELOW)
        for course in near:
            if (course.severity or 0.0) > (worst.severity or 0.0) * (1 + ROUNDING):
                worst = course
    return worst


def _courses(heating: Heating, course: Course) -> Iterator[Course | Sequence[float]]:
    """Below the highest: at corners of the clearing times, either side of jumps; steps between.

    course -- at the highest current
    gives  -- courses, and the currents of steps [A] that one after another may be looked at

    No steps where all that ends, ends quickly: between two corners the logarithm of its energy is
    a convex function of the logarithm of the current (a sum of powers), largest at either corner.
    """
    span = heating.span
    highest = span.highest.value
    lowest = span.least
    jumps = span.jumps()
    corners = [corner for corner in span.corners() if lowest < corner < highest]
    if lowest:
        corners.insert(0, lowest)
    lasts = bool(course.slow)
    for corner, after in pairwise([*corners, highest]):
        if corner in jumps or lasts:
            yield heating.course(corner * (1 - 1e-9))
        course = heating.course(corner)
        yield course
        if corner in jumps:
            course = heating.course(corner * (1 + 1e-9))
            yield course
        lasts = bool(course.slow)
        if lasts and (steps := _steps(heating, corner, _borne_to(heating, course, after), after)):
            # The last ones tell most: there it has lasted as long as at smaller currents.
            yield steps[:-2]
            yield from map(heating.course, steps[-2:])
            lasts = heating.lasts(steps[-1])


def _steps(heating: Heating, corner: float, borne: float, after: float) -> list[float]:
    """Currents [A] between two corners, from where not everything is borne until nothing lasts."""
    found: list[float] = []
    current = corner * STEP
    while current < after:
        if current >= borne:
            found.append(current)
        current *= STEP
    ends = bisect_left(found, True, key=lambda current: not heating.lasts(current))
    return found[: ends + 1]


def _harmful(heating: Heating, currents: Sequence[float], least: float) -> Iterator[Course]:
    """At those of rising currents where the severity may exceed `least`; halves are tried."""
    if not currents or heating.most(currents[0], currents[-1]) < least:
        return
    middle = len(currents) // 2
    if not middle:
        yield heating.course(currents[0])
        return
    yield from _harmful(heating, currents[:middle], least)
    yield from _harmful(heating, currents[middle:], least)


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
