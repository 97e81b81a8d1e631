"""Judges what must be borne for good: overloads that end late, return legs, switches, batteries."""

from __future__ import annotations

from math import inf

from tests.oracle.judge import limit, through
from tests.oracle.opening import slowest
from tests.oracle.plant import Element, Supply, legs
from tests.oracle.state import UNPROVEN, State, Verdict, against, worst

#: Longest conventional time [s] of any family, and what a cable bears until then [times its own].
CONVENTIONAL, BEARABLE = 4 * 3600.0, 1.45


def _conventional(element: Element, unknown: float) -> float:
    """Current [A] at which a device must open within its conventional time."""
    if not element.protective or element.part is None:
        return inf
    if element.kind == "channel":
        return limit(element, unknown)
    rows = [amps for amps, seconds in slowest(element.part) if seconds <= CONVENTIONAL]
    return min(rows, default=unknown)


def overload_clears(state: State, element: Element) -> Verdict | None:
    """The most that no device need switch off, against 1.45 times each leg's ampacity."""
    if element.kind != "cable":
        return None
    bounds = [max(through(state, element, lambda e, u=unknown: _conventional(e, u)))
              for unknown in (0.0, inf)]  # fmt: skip
    if bounds[1] == 0.0 or bounds[0] == inf:
        return None
    found = []
    for number in range(len(legs(state.plant, element))):
        ampacity = state.ampacity(element, number)
        allowed = None if ampacity is None else BEARABLE * ampacity
        low, high = (against(bound, allowed) for bound in bounds)
        found.append(high if low.verdict == high.verdict else UNPROVEN)
    return worst(found)


def return_conductor(state: State, element: Element) -> Verdict | None:
    """Load, and the most that protection lets through, against the return leg's ampacity."""
    if element.kind != "cable":
        return None
    bounds = [max(through(state, element, lambda e, u=unknown: limit(e, u)))
              for unknown in (0.0, inf)]  # fmt: skip
    if bounds[1] == 0.0:
        return None
    if len(legs(state.plant, element)) < 2:
        return UNPROVEN
    ampacity = state.ampacity(element, 1)
    low, high = (against(bound, ampacity) for bound in bounds)
    bound = high if low.verdict == high.verdict else UNPROVEN
    return worst([against(state.load(element), ampacity), bound])


def disconnect_rating(state: State, element: Element) -> Verdict | None:
    """Load against the continuous rating; the generated systems state no surges."""
    if element.kind != "disconnect" or element.part is None:
        return None
    return against(state.load(element), element.part.get("rated_current"))


def battery_discharge(state: State, supply: Supply) -> Verdict | None:
    """Largest current that a battery gives, against what it may give for good."""
    if supply.part is None or supply not in state.block.present:
        return None
    return against(state.given(supply), supply.part.get("discharge_continuous"))


LASTING = {
    "overload-clears": overload_clears,
    "return-conductor": return_conductor,
    "disconnect-rating": disconnect_rating,
}
SUPPLIES = {"battery-discharge": battery_discharge}
