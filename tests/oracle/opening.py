"""When a fuse or breaker opens, read off its stated points by the judge's own rules.

Drawn curves are straight lines in log-log; a standard's gates only say that more current never
takes longer. Past its last point a fuse keeps that point's I²t at most, a breaker its time.
"""

from __future__ import annotations

from itertools import pairwise
from math import exp, inf, log
from typing import Any

Part = dict[str, Any]
Rows = list[tuple[float, float]]

ADIABATIC = 0.01
#: Of currents that a matrix with tiny resistances gives.
ROUNDING = 1e-6


def slowest(part: Part) -> Rows:
    """Points of the latest clearing."""
    curve = part.get("curve") or {}
    return curve.get("max_clear") or curve.get("max_trip") or curve.get("slowest") or []


def fastest(part: Part) -> Rows:
    """Points of the earliest opening."""
    curve = part.get("curve") or {}
    return curve.get("min_melt") or curve.get("min_trip") or curve.get("fastest") or []


def gates(part: Part) -> bool:
    """Whether its points are a standard's."""
    return bool(part.get("curve_gates"))


def cleared(part: Part, current: float, volts: float | None) -> float:
    """Latest clearing [s]; infinite where nothing says that it opens.

    volts -- highest system voltage: a clearing I²t holds only within the DC marking
    """
    rows, found = slowest(part), inf
    if rows and current >= rows[0][0]:
        found = _read(part, rows, current)
        if current > rows[-1][0] and part["kind"] == "fuse":
            found = rows[-1][1] * (rows[-1][0] / current) ** 2
    energy = part.get("clearing_i2t")
    marked = volts is not None and any(volts <= u + 1e-9 for u, _ in part.get(
        "interrupt_ratings", ()))  # fmt: skip
    if energy is not None and marked and energy / current**2 <= ADIABATIC:
        found = min(found, energy / current**2)
    return found


def opens(part: Part, current: float, factor: float | None) -> float:
    """Earliest opening [s]; infinite where it carries that for good; 0: it may open at once.

    factor -- share of its rating left in its place, None: not known
    """
    rated = part.get("rated_current")
    if factor is not None and rated is not None and current <= rated * factor * (1 + ROUNDING):
        return inf
    rows = [(amps * min(factor or 1.0, 1.0), seconds) for amps, seconds in fastest(part)]
    found = 0.0
    if rows:
        if current < rows[0][0]:
            found = rows[0][1]
        elif current <= rows[-1][0]:
            found = _read(part, rows, current, early=True)
        elif part["kind"] == "fuse" and rows[-1][1] <= ADIABATIC:
            found = rows[-1][1] * (rows[-1][0] / current) ** 2
    energy = part.get("melting_i2t")
    if energy is None:
        return found
    melts = energy / current**2
    # Past the last point the stated energy is the least that melts it; before, both must hold.
    past = not rows or current > rows[-1][0]
    return max(found, melts) if not past or not found else min(found, melts)


def _read(part: Part, rows: Rows, current: float, early: bool = False) -> float:
    for (i1, t1), (i2, t2) in pairwise(rows):
        if i1 <= current <= i2:
            if current == i2:
                continue
            if not gates(part):
                return exp(log(t1) + log(current / i1) * log(t2 / t1) / log(i2 / i1))
            if current == i1 or not early:
                return t1
            # Earlier than the next gate it cannot be; of melting, than its I²t, neither.
            energy = t2 * (i2 / current) ** 2 if part["kind"] == "fuse" else t2
            return min(t1, energy)
    return rows[-1][1]
