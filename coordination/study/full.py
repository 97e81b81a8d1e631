"""Elimination and inverse of a network in which nearly every junction is joined to every other.

Written so that all the work is dot products of whole lists, which is the fastest that plain Python
does. Conductances are only ever added, as in `factor`.
"""

from __future__ import annotations

from operator import mul


def eliminate(
    joints: list[list[float]], shunts: list[float]
) -> tuple[list[float], list[list[float]]]:
    """Eliminate junctions from first to last.

    joints -- conductance [S] of each junction to every later one
    shunts -- conductance [S] of each to ground
    gives  -- 1 / pivot [Ω] of each (0: no way to ground), and its shares to every later one
    """
    size = len(joints)
    shares_of: list[list[float]] = [[] for _ in range(size)]
    joined_of: list[list[float]] = [[] for _ in range(size)]
    shunts = list(shunts)
    units: list[float] = []
    parts: list[list[float]] = []
    for point, row in enumerate(joints):
        shares = shares_of[point]
        joined = [
            own + sum(map(mul, shares, joined_of[later]))
            for later, own in enumerate(row, point + 1)
        ]
        shunt = shunts[point] + sum(map(mul, shares, shunts))
        shunts[point] = shunt
        total = sum(joined) + shunt
        unit = 1.0 / total if total > 0.0 else 0.0
        share = [conductance * unit for conductance in joined]
        for later, (part, conductance) in enumerate(zip(share, joined, strict=True), point + 1):
            shares_of[later].append(part)
            joined_of[later].append(conductance)
        units.append(unit)
        parts.append(share)
    return units, parts


def invert(units: list[float], parts: list[list[float]]) -> list[list[float]]:
    """The inverse [Ω] of what `eliminate` eliminated: each junction's row, from last to first."""
    size = len(units)
    rows: list[list[float]] = [[] for _ in range(size)]
    for point in range(size - 1, -1, -1):
        share = parts[point][::-1]
        entries = [sum(map(mul, share, rows[later])) for later in range(size - 1, point, -1)]
        for later, entry in zip(range(size - 1, point, -1), entries, strict=True):
            rows[later].append(entry)
        entries.append(units[point] + sum(map(mul, share, entries)))
        rows[point] = entries
    return rows
