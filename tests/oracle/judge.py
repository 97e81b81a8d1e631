"""Judges a plant by the rule cards alone, by brute force: interrupt, voltage, load, ampacity,
overload. Withstand and selectivity, which need times, are `timed`'s.

A verdict is "pass", "fail" or "unproven" with the share found / allowed, None where a rule has
nothing to say. What is not stated is put in twice, small and large: a figure that moves is unknown.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from math import inf
from typing import NamedTuple

from tests.oracle.dense import Dense
from tests.oracle.heat import ampacity
from tests.oracle.operating_points import CASES, fed
from tests.oracle.plant import Element, Part, Plant, legs
from tests.oracle.spice import Block


class Verdict(NamedTuple):
    """A verdict and how much of what is allowed is used (1: all; infinite: a fail on a fact)."""

    verdict: str
    used: float = 0.0


PASS, UNPROVEN, FAIL, NOTE = (
    Verdict("pass"), Verdict("unproven"), Verdict("fail", inf), Verdict("note"),
)  # fmt: skip
#: Stand-ins for what is not stated [Ω].
SMALL, LARGE = 0.0, 0.02
#: Current [A] below which nothing is said to flow.
NOTHING = 1e-3
_RANK = {"fail": 0, "unproven": 1, "note": 2, "pass": 3}


def against(found: float | None, allowed: float | None) -> Verdict:
    """Found against an upper limit."""
    if found is None or allowed is None:
        return UNPROVEN
    used = found / allowed if allowed > 0 else (0.0 if found <= 0 else inf)
    return Verdict("pass" if found <= allowed * (1 + 1e-9) else "fail", used)


def worst(verdicts: list[Verdict]) -> Verdict | None:
    """The one that counts for all."""
    if not verdicts:
        return None
    verdict = min((v.verdict for v in verdicts), key=_RANK.__getitem__)
    return Verdict(verdict, max(v.used for v in verdicts))


class State:
    """One condition of a plant."""

    def __init__(self, plant: Plant, condition: str) -> None:
        self.plant, self.condition = plant, condition
        self.block = Block(plant, condition, 0, False)
        self.most = Dense(self.block)
        self._volts: dict[frozenset[int], float | None] = {}
        self.least = [Dense(Block(plant, condition, 0, True, ohms)) for ohms in (SMALL, LARGE)]

    def island(self, point: str) -> int:
        """The connected piece of a point."""
        return self.block.island[point]

    def volts(self, *points: str) -> float | None:
        """Highest voltage [V] of the pieces of these points."""
        pieces = frozenset(self.island(point) for point in points)
        if pieces not in self._volts:
            self._volts[pieces] = self._highest(pieces)
        return self._volts[pieces]

    def _highest(self, pieces: frozenset[int]) -> float | None:
        found: list[float | None] = [0.0]
        for supply in self.block.present:
            if self.island(supply.point) in pieces:
                if supply.part is None:
                    found.append(supply.voltage)
                else:
                    found += [supply.emf[1], supply.part.get("charge_voltage")]
        return None if None in found else max(each for each in found if each is not None)

    def strong(self, element: Element) -> bool:
        """Whether every battery that can feed it states its least resistance."""
        pieces = {self.island(element.start), self.island(element.end)}
        return all(s.ohms_low is not None for s in self.block.present
                   if s.part is not None and self.island(s.point) in pieces)  # fmt: skip

    def duty(self, element: Element) -> float | None:
        """Largest current [A] through it for a fault at either terminal."""
        return max(map(abs, self.most.arriving(element))) if self.strong(element) else None

    @cached_property
    def overdrawn(self) -> set[int]:
        """Pieces where limited sources alone cannot give what is drawn."""
        limits: dict[int, float] = {}
        drawn: dict[int, float] = {}
        for supply in self.block.present:
            piece = self.island(supply.point)
            if supply.part is None and piece not in self.block.batteries:
                limits[piece] = limits.get(piece, 0.0) + supply.limit
        for point, amps in self.plant.drawn(self.condition).items():
            drawn[self.island(point)] = drawn.get(self.island(point), 0.0) + amps
        return {piece for piece, limit in limits.items() if drawn.get(piece, 0.0) > limit + 1e-9}

    @cached_property
    def flows(self) -> list[list[dict[str, float]]]:
        """By stand-in and load case: current [A] through every closed element, start to end."""
        return [[self._flow(dense, draw, charge) for draw, charge in CASES]
                for dense in self.least]  # fmt: skip

    def _flow(self, dense: Dense, draw: bool, charge: bool) -> dict[str, float]:
        currents = dense.driven.copy()
        for point, amps in fed(dense.block, draw, charge):
            currents[dense.index[point]] += amps
        voltage = dense.voltages(currents)[0] if self.block.batteries else currents * 0.0
        found = {e.name: dense.flow(e, voltage) for e in dense.block.closed}
        return found | self._limited(dense, draw)

    def _limited(self, dense: Dense, draw: bool) -> dict[str, float]:
        """Pieces that limited sources alone feed: their voltages from one of them."""
        found: dict[str, float] = {}
        for piece in {self.island(p) for p in self.plant.points} - self.block.batteries:
            points = [p for p in self.plant.points if self.island(p) == piece]
            currents = dense.driven * 0.0
            for point, amps in fed(dense.block, draw, False):
                currents[dense.index[point]] += amps
            voltage = dense.voltages(currents, points[:1])[0]
            found |= {e.name: dense.flow(e, voltage) for e in self.block.closed
                      if self.island(e.start) == piece}  # fmt: skip
        return found

    def load(self, element: Element) -> float | None:
        """Largest current [A] of the load cases; None where what is not stated matters."""
        if not self.plant.closed(element, self.condition):
            return 0.0
        if self.island(element.start) in self.overdrawn:
            return None
        one, other = (max(abs(case[element.name]) for case in cases) for cases in self.flows)
        if max(one, other) < NOTHING:
            return 0.0
        return one if abs(one - other) <= 1e-4 * max(one, other) + 1e-4 else None

    def ampacity(self, element: Element, leg: int = 0) -> float | None:
        """Of a leg in its place [A]."""
        part, _, runs = legs(self.plant, element)[leg]
        entry = element.entry
        return ampacity(part, element.ambient, int(entry.get("bundle", 1)), runs,
                        bool(entry.get("sheathed")))  # fmt: skip


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
    least, most = (max(_through(state, element, unknown)) for unknown in (0.0, inf))
    if most == 0.0:
        return None
    low, high = against(least, state.ampacity(element)), against(most, state.ampacity(element))
    return high if low.verdict == high.verdict else UNPROVEN


def _through(state: State, cable: Element, unknown: float) -> Iterator[float]:
    """Largest lasting current [A] into each end of a cable and out of its circuit's other end."""
    chain = [e for e in state.plant.elements if e.circuit == cable.circuit]
    at = chain.index(cable)
    edges = [
        (e.start, e.end, _limit(e, unknown)) for e in state.block.closed if e is not cable
    ]
    for into, beyond in ((cable.start, chain[at + 1 :]), (cable.end, chain[:at])):
        out = min((_limit(e, unknown) for e in beyond), default=inf)
        yield min(out, _most_flow(state, edges, into))


def _limit(element: Element, unknown: float) -> float:
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
