"""A narrow step in a few digits: a value on its better side, so that what is said of it holds."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

from catalogue.quantities import QuantityError, parse
from coordination.report.wording import number

if TYPE_CHECKING:
    from coordination.margins.inputs import Input
    from coordination.margins.search import Crossing

#: Digits tried, fewest first.
_DIGITS = (3, 4, 5, 6, 9)
#: How far, in errors of rounding, a value is pushed before it is rounded again.
_PUSHES = (1.0, 2.0, 4.0, 8.0)


class Shown(NamedTuple):
    """A value as it is written for people, and what that text says [SI, °C]."""

    text: str
    value: float


def shown_value(each: Input, crossing: Crossing, holds: Callable[[float], bool]) -> Shown:
    """The change's place in as few digits as tell it, on the side with the better verdict.

    holds -- whether that better verdict was judged at a value
    """
    outward = 1.0 if crossing.far > crossing.near else -1.0
    good, limit = crossing.far, crossing.next_far
    if not crossing.better:
        outward, good, limit = -outward, crossing.near, each.now
    for digits in _DIGITS:
        # A rating is a round figure: it may stand inside the step, and be judged itself.
        found = _read(each, good, digits)
        low, high = sorted((crossing.near, crossing.far))
        if low < found.value < high and found.value != each.now and holds(found.value):
            return found
        found = _rounded(each, good, outward, digits)
        inside = 0.0 <= (found.value - good) * outward <= (limit - good) * outward
        if inside and found.value != each.now and holds(found.value):
            return found
    return Shown(number(good, each.unit, each.written, 9), good)


def _rounded(each: Input, good: float, outward: float, digits: int) -> Shown:
    """A value in so many digits, no nearer to the change than `good`."""
    found = _read(each, good, digits)
    error = abs(found.value - good)
    for push in _PUSHES:
        if (found.value - good) * outward >= 0.0:
            break
        found = _read(each, good + outward * push * error, digits)
    return found


def _read(each: Input, value: float, digits: int) -> Shown:
    text = number(value, each.unit, each.written, digits)
    try:
        return Shown(text, parse(text, each.dimension))
    except QuantityError:
        # A pure number is read with its per cent sign only.
        return Shown(text, float(f"{value:.{digits}g}"))
