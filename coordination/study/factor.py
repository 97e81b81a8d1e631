"""Sparse elimination of a network's core by least degree, and the inverse where it is needed.

Works on conductances between junctions and shunts to ground. Eliminating a junction replaces it by
conductances between its neighbours (star-mesh), all sums of positive terms: nothing cancels.
Of the inverse only the diagonal and the entries of joined pairs are found (Takahashi, Fagan and
Chin 1973), which costs no more than the elimination itself. Once most of what is left is joined to
most of the rest, rows become plain lists, which are faster than maps when they are full.
"""

from __future__ import annotations

from collections.abc import Iterable
from heapq import heapify, heappop, heappush
from operator import itemgetter, mul

from coordination.study import full

#: Junctions left before it pays to ask whether the rest is nearly full.
FEW = 12
#: Share of the rest that the least joined junction must be joined to, to treat the rest as full.
FULL = 0.6


class Factor:
    """A core with its junctions eliminated, ready to be solved for any currents."""

    __slots__ = ("_full", "_inverse", "_near", "_order", "_share", "_unit", "size")

    def __init__(self, shunts: Iterable[float], joints: Iterable[tuple[int, int, float]]) -> None:
        shunt = list(shunts)
        rows: list[dict[int, float]] = [{} for _ in shunt]
        for one, other, conductance in joints:
            if one != other:
                rows[one][other] = rows[other][one] = rows[one].get(other, 0.0) + conductance
        self.size = len(shunt)
        self._order: list[int] = []
        self._near: list[list[int]] = []
        self._share: list[list[float]] = []
        self._unit: list[float] = []
        self._full = -1
        self._inverse: list[dict[int, float]] | None = None
        self._eliminate(shunt, rows)
        if self._full < 0:
            self._full = self.size

    def _eliminate(self, shunt: list[float], rows: list[dict[int, float]]) -> None:
        queue = [(len(row), point) for point, row in enumerate(rows)]
        heapify(queue)
        done = [False] * self.size
        left = self.size
        while queue:
            degree, point = heappop(queue)
            row = rows[point]
            if done[point] or degree != len(row):
                continue
            if left > FEW and degree > FULL * left:
                self._eliminate_full([p for p in range(self.size) if not done[p]], shunt, rows)
                return
            done[point] = True
            left -= 1
            near, joined = list(row), list(row.values())
            share = self._pivot(point, near, joined, shunt[point])
            _mesh(point, near, joined, share, shunt, rows)
            for other in near:
                heappush(queue, (len(rows[other]), other))

    def _pivot(self, point: int, near: list[int], joined: list[float], shunt: float) -> list[float]:
        """Note a junction as eliminated; a junction with no way to ground stays at 0 V."""
        total = sum(joined) + shunt
        unit = 1.0 / total if total > 0.0 else 0.0
        share = [conductance * unit for conductance in joined]
        self._order.append(point)
        self._near.append(near)
        self._share.append(share)
        self._unit.append(unit)
        return share

    def _eliminate_full(
        self, points: list[int], shunt: list[float], rows: list[dict[int, float]]
    ) -> None:
        """Eliminate what is left, one list of conductances to all later junctions for each."""
        joints = [
            [rows[point].get(later, 0.0) for later in points[position + 1 :]]
            for position, point in enumerate(points)
        ]
        units, parts = full.eliminate(joints, [shunt[point] for point in points])
        self._full = len(self._order)
        self._order += points
        self._unit += units
        self._share += parts
        self._near += [points[position + 1 :] for position in range(len(points))]

    def solve(self, currents: list[float]) -> list[float]:
        """Voltage [V] of every junction for the currents [A] fed into them."""
        work = list(currents)
        for point, near, share in zip(self._order, self._near, self._share, strict=True):
            current = work[point]
            if current:
                for other, part in zip(near, share, strict=True):
                    work[other] += part * current
        for position in range(self.size - 1, -1, -1):
            point = self._order[position]
            work[point] = work[point] * self._unit[position] + sum(
                map(mul, self._share[position], [work[other] for other in self._near[position]])
            )
        return work

    def inverse(self) -> list[dict[int, float]]:
        """Entries of the inverse [Ω]: of each junction with itself and all it was joined to."""
        if self._inverse is None:
            found: list[dict[int, float]] = [{} for _ in range(self.size)]
            self._invert_full(found)
            for position in range(self._full - 1, -1, -1):
                self._invert(position, found)
            self._inverse = found
        return self._inverse

    def _invert_full(self, found: list[dict[int, float]]) -> None:
        points = self._order[: self._full - 1 if self._full else None : -1]
        rows = full.invert(self._unit[self._full :], self._share[self._full :])
        for point, row in zip(points, reversed(rows), strict=True):
            found[point] = dict(zip(points, row, strict=True))

    def _invert(self, position: int, found: list[dict[int, float]]) -> None:
        """Entries of one junction, from those of the junctions it was joined to."""
        point, near, share = self._order[position], self._near[position], self._share[position]
        own = found[point]
        if len(near) == 1:
            own[near[0]] = share[0] * found[near[0]][near[0]]
        elif near:
            pick = itemgetter(*near)
            for other in near:
                own[other] = sum(map(mul, share, pick(found[other])))
        for other, entry in own.items():
            found[other][point] = entry
        own[point] = self._unit[position] + sum(map(mul, share, own.values()))


def _mesh(
    point: int,
    near: list[int],
    joined: list[float],
    share: list[float],
    shunt: list[float],
    rows: list[dict[int, float]],
) -> None:
    """Replace an eliminated junction by conductances between its neighbours."""
    own = shunt[point]
    for position, other in enumerate(near):
        row = rows[other]
        del row[point]
        part = share[position]
        if own:
            shunt[other] += part * own
        for beyond, conductance in zip(near[position + 1 :], joined[position + 1 :], strict=True):
            extra = part * conductance
            row[beyond] = rows[beyond][other] = row.get(beyond, 0.0) + extra
    rows[point] = {}
