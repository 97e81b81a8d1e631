"""Judges a plant by the rule cards alone, by brute force: interrupt, voltage, load, ampacity,
overload. Rules that need times, or tell of ends and what lasts, are beside it.

A verdict is "pass", "fail" or "unproven" with the share found / allowed, None where a rule has
nothing to say.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import inf

from tests.oracle.plant import Element, Part, legs
from tests.oracle.state import FAIL, NOTE, UNPROVEN, State, Verdict, against, worst


def rated(part: Part, volts: float) -> float | None:
    """Interrupt rating [A] at the lowest listed voltage that covers this one; None: none does."""
    rows = [row for row in part.get("interrupt_ratings", ()) if volts <= row[0] * (1 + 1e-9)]
    return min(rows)[1] if rows else None


def interrupt_rating(state: State, element: Element) -> Verdict | None:
    """Duty against the rating at this voltage."""
    part = element.part
    if part is None or element.kind not in ("fuse", "breaker", "channel"):
        return None
    if not element.protective:
        return NOTE
    volts = state.volts(element.start, element.end)
    if volts is None:
        return UNPROVEN
    allowed = rated(part, volts)
    if allowed is None and part.get("interrupt_ratings"):
        return FAIL
    return against(state.duty(element), allowed)


def dc_voltage_rating(state: State, element: Element) -> Verdict | None:
    """Highest voltage against every part's rating, the return's cable too."""
    if element.kind == "joint" or element.part is None:
        return None
    parts = [part for part, _, _ in legs(state.plant, element)] if element.kind == "cable" else [
        element.part]  # fmt: skip
    volts = state.volts(element.start, element.end)
    field = "rated_voltage" if element.kind in ("fuse", "breaker") else "voltage"
    return worst([against(volts, part.get(field)) for part in parts])


def derating(part: Part, ambient: float) -> float | None:
    """Share of a rating left in air of this temperature [°C]: the lower of the rows around it."""
    rows = sorted(part.get("derating") or ())
    warmer = [share for degrees, share in rows if degrees >= ambient]
    if not rows:
        return 1.0 if ambient <= 20.0 else None
    if not warmer:
        return None
    exact = [share for degrees, share in rows if degrees == ambient]
    return exact[0] if exact else warmer[0]


def device_load(state: State, element: Element) -> Verdict | None:
    """Load against the derated rating."""
    part = element.part
    if part is None or element.kind not in ("fuse", "breaker", "channel"):
        return None
    rating, share = part.get("rated_current"), derating(part, element.ambient)
    load = state.load(element)
    if share is None:
        full = against(load, rating)
        return full if full.verdict == "fail" else UNPROVEN
    return against(load, None if rating is None else rating * share)


def cable_ampacity(state: State, element: Element) -> Verdict | None:
    """Load against the positive leg's ampacity."""
    if element.kind != "cable":
        return None
    return against(state.load(element), state.ampacity(element))


def cable_overload(state: State, element: Element) -> Verdict | None:
    """The most that can flow through a cable for good, every device carrying its rating at most."""
    if element.kind != "cable":
        return None
    least, most = (
        max(through(state, element, lambda e, u=unknown: limit(e, u))) for unknown in (0.0, inf)
    )
    if most == 0.0:
        return None
    low, high = against(least, state.ampacity(element)), against(most, state.ampacity(element))
    return high if low.verdict == high.verdict else UNPROVEN


def through(
    state: State, cable: Element, limit_of: Callable[[Element], float]
) -> Iterator[float]:
    """Largest lasting current [A] into each end of a cable and out of its circuit's other end.

    limit_of -- current [A] that an element lets through for good
    """
    chain = [e for e in state.plant.elements if e.circuit == cable.circuit]
    at = chain.index(cable)
    edges = [
        (e.start, e.end, limit_of(e)) for e in state.block.closed if e is not cable
    ]
    for into, beyond in ((cable.start, chain[at + 1 :]), (cable.end, chain[:at])):
        out = min((limit_of(e) for e in beyond), default=inf)
        yield min(out, _most_flow(state, edges, into))


def limit(element: Element, unknown: float) -> float:
    """Current [A] a device lets through for good."""
    if not element.protective or element.part is None:
        return inf
    field = "trip_current" if element.kind == "channel" else "rated_current"
    value = element.part.get(field)
    return unknown if value is None else float(value)


def _most_flow(state: State, edges: list[tuple[str, str, float]], sink: str) -> float:
    """Maximum flow from all sources to a point, by augmenting paths; infinite: nothing limits it.

    Batteries give without end, limited sources their limit.
    """
    left: dict[str, dict[str, float]] = {}

    def join(one: str, other: str, forth: float, back: float) -> None:
        left.setdefault(one, {}).setdefault(other, 0.0)
        left.setdefault(other, {}).setdefault(one, 0.0)
        left[one][other] += forth
        left[other][one] += back

    for start, end, limit in edges:
        join(start, end, limit, limit)
    for supply in state.block.present:
        join("all sources", supply.point, inf if supply.part is not None else supply.limit, 0.0)
    total = 0.0
    while True:
        came = {"all sources": ""}
        waiting = ["all sources"]
        for here in waiting:
            for far, free in left.get(here, {}).items():
                if far not in came and free > 1e-9:
                    came[far] = here
                    waiting.append(far)
        if sink not in came:
            return total
        path = [sink]
        while path[-1] != "all sources":
            path.append(came[path[-1]])
        steps = list(zip(path[1:], path[:-1], strict=True))
        amount = min(left[a][b] for a, b in steps)
        if amount == inf:
            return inf
        for a, b in steps:
            left[a][b] -= amount
            left[b][a] += amount
        total += amount


RULES = {
    "interrupt-rating": interrupt_rating,
    "dc-voltage-rating": dc_voltage_rating,
    "device-load": device_load,
    "cable-ampacity": cable_ampacity,
    "cable-overload": cable_overload,
}
