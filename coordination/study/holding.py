"""Whether a device stays closed while a current that is no fault flows through it."""

from __future__ import annotations

from math import isfinite
from typing import TYPE_CHECKING

from catalogue.frozen import dataclass
from coordination.curves.boundary import ADIABATIC_TIME
from coordination.model import Element
from coordination.study.openings import time_step
from coordination.trace import Derived, Unknown, Value

if TYPE_CHECKING:
    from coordination.study.study import Study


@dataclass(frozen=True, slots=True)
class Holding:
    """A device and a current that is to pass.

    time  -- earliest opening [s]; None where it carries the current for good
    exact -- the part's own data say that it may open then; else it may stay closed for longer
    """

    time: Value | None
    exact: bool


def holding(study: Study, element: Element, current: Value) -> Holding:
    """How long a device is sure to stay closed at a current [A] that is there at once."""
    quantity = f"earliest opening of {element.name}"
    opening = study.opening(element)
    if isinstance(current, Unknown):
        return Holding(Unknown(quantity, current.missing), False)
    if isinstance(opening, Unknown):
        return Holding(Unknown(quantity, opening.missing), False)
    if current.value <= 0.0:
        return Holding(None, False)
    bound = opening.stays_closed(current.value)
    if bound.time is None:
        what = "minimum trip curve" if element.kind == "breaker" else "minimum melting curve"
        part = element.name if element.part is None else element.part.id
        return Holding(Unknown(quantity, (f"{part}: {what} at {current.value:.4g} A",)), False)
    if not isfinite(bound.time):
        return Holding(None, False)
    drawn = bound.basis in ("point", "line") and not opening.fastest.gates
    melted = bound.basis == "physics" and bound.time <= ADIABATIC_TIME
    step: Derived = time_step(element, opening, bound, current, "fastest")
    return Holding(step, drawn or melted)
