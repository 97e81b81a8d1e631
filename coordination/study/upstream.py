"""Which devices feed a fault behind a device, and how its current divides among them.

In a linear network the current through a device U, while I flows through a device D into a fault
behind it, is share × I + rest: the share is what U brings of each further ampere, the rest what
flows without a fault. Both are found from two solutions for the point of the fault. Where nothing
feeds the far side of D, they are the same for every device between D and the point where sources
meet, so they are found once there. A branch whose share is unknown is a feeder all the same.
"""

from __future__ import annotations

from functools import cached_property

from catalogue.frozen import dataclass
from coordination.study.doubts import Doubts
from coordination.study.figures import Figures
from coordination.study.reach import Reach
from coordination.study.solve import Solved

#: Share of a current below which nothing is said to flow.
SLIGHT = 1e-6


@dataclass(frozen=True, slots=True)
class Feeder:
    """A branch on the way from a source to a fault.

    share   -- current through it for each ampere through the device downstream [1], the larger of
               the two bounds
    sign    -- +1 where that current flows from its start to its end
    nearest -- no other protective device stands between it and the one downstream
    """

    branch: int
    share: float
    sign: int
    nearest: bool


class Upstream:
    """The feeders of one network, for faults behind any of its branches."""

    def __init__(self, figures: Figures, reach: Reach, doubts: Doubts) -> None:
        self.figures, self.reach, self.doubts = figures, reach, doubts
        self.network = figures.network
        self._beyond: dict[tuple[int, bool], bool] = {}
        self._users_of: dict[int, int] = {}
        self._fed_here: dict[int, bool] = {}
        self._columns: dict[tuple[int, bool], list[float]] = {}
        self._met: dict[int, tuple[Feeder, ...]] = {}

    @cached_property
    def fed(self) -> list[bool]:
        """Whether anything feeds from behind each leaf of a tree, by branch; True in a loop."""
        shape = self.figures.shape
        found = [True] * len(shape.start)
        for leaf, via in zip(shape.leaves, shape.vias, strict=True):
            found[via] = self._feeding(leaf) > 0
        return found

    def _feeding(self, point: int) -> int:
        """Batteries at and behind a point; where the island has none, limited sources."""
        shape = self.figures.shape
        fed = shape.island_batteries[shape.island[point]]
        return shape.batteries[point] if fed else shape.sources[point]

    def feeders(self, branch: int, forward: bool) -> tuple[Feeder, ...]:
        """Protective branches that feed a fault beyond a branch, from its start (`forward`).

        Every ancestor, the branch itself not among them; empty where no battery feeds that way.
        """
        shape = self.figures.shape
        near, far = (shape.start[branch], shape.end[branch])
        if not forward:
            near, far = far, near
        if not self.fed[branch]:
            leaf = shape.leaves[self.figures.position[branch]]
            return self._above(near) if leaf == far else ()
        return self._walk(far, near, branch, 1 if forward else -1)

    def _above(self, point: int) -> tuple[Feeder, ...]:
        """The feeders of a fault at a point, or behind it, for each ampere that flows there."""
        if point not in self._met:
            via = self._single_inlet(point)
            if via is None:
                self._met[point] = self._walk(point, point, -1, 1)
            else:
                branch, beyond = via
                above = self._above(beyond)
                if self.reach.protective[branch]:
                    sign = 1 if self.figures.shape.start[branch] == beyond else -1
                    above = (
                        Feeder(branch, 1.0, sign, True),
                        *(Feeder(f.branch, f.share, f.sign, False) for f in above),
                    )
                self._met[point] = above
        return self._met[point]

    def _single_inlet(self, point: int) -> tuple[int, int] | None:
        """The one branch that feeds a point of a tree behind which nothing feeds; None: several."""
        shape = self.figures.shape
        position = self._hung.get(point)
        if position is None or self._feeding(point):
            return None
        return shape.vias[position], shape.parents[position]

    @cached_property
    def _hung(self) -> dict[int, int]:
        return {leaf: position for position, leaf in enumerate(self.figures.shape.leaves)}

    def per_ampere(self, point: int, *, high: bool) -> list[float]:
        """Current [A] through every branch as drawn for each ampere into a fault at a point."""
        key = (point, high)
        if key not in self._columns:
            solved: Solved = self.figures.high if high else self.figures.low
            current = solved.gather([(point, -1.0)])
            self._columns[key] = solved.flows(current, solved.voltages(current))
        return self._columns[key]

    def _walk(self, fault: int, start: int, without: int, sign: int) -> tuple[Feeder, ...]:
        """Against the current from a device's near terminal; `without` is the device (-1: none)."""
        shape = self.figures.shape
        if not shape.island_batteries[shape.island[fault]]:
            return self._walk_limited(start, without)
        flows = [self.per_ampere(fault, high=high) for high in (False, True)]
        own = [1.0, 1.0] if without < 0 else [each[without] * sign for each in flows]
        if min(own) <= SLIGHT:
            if not self.doubts.sharing(without):
                return ()
            own = [1.0, 1.0]
        found: dict[int, Feeder] = {}
        seen: dict[int, bool] = {}
        waiting = [(start, True)]
        while waiting:
            point, nearest = waiting.pop()
            if seen.get(point, False) or (point in seen and not nearest):
                continue
            seen[point] = nearest
            for branch, beyond in self.reach.around[point]:
                if branch == without:
                    continue
                toward = 1 if shape.end[branch] == point else -1
                share = toward * max(
                    (each[branch] / amps for each, amps in zip(flows, own, strict=True)),
                    key=lambda part: part * toward,
                )
                if share <= SLIGHT and not self.doubts.sharing(branch):
                    continue
                if self.reach.protective[branch]:
                    direct = nearest or (branch in found and found[branch].nearest)
                    found[branch] = Feeder(branch, max(share, SLIGHT), toward, direct)
                    waiting.append((beyond, False))
                else:
                    waiting.append((beyond, nearest))
        return tuple(sorted(found.values(), key=lambda each: each.branch))

    def _walk_limited(self, start: int, without: int) -> tuple[Feeder, ...]:
        """Where no battery is: every device towards a source, with all of the current at most."""
        shape = self.figures.shape
        found: dict[int, Feeder] = {}
        seen, taken = {start}, {without}
        waiting = [(start, True)]
        for point, nearest in waiting:
            for branch, beyond in self.reach.around[point]:
                if branch in taken or not self.reach.fed(point, branch, without):
                    continue
                taken.add(branch)
                stops = self.reach.protective[branch]
                if stops:
                    toward = 1 if shape.end[branch] == point else -1
                    found[branch] = Feeder(branch, 1.0, toward, nearest)
                # Of two ways to a point the devices of both count.
                if beyond not in seen:
                    seen.add(beyond)
                    waiting.append((beyond, nearest and not stops))
        return tuple(sorted(found.values(), key=lambda each: each.branch))

    @cached_property
    def _users(self) -> set[int]:
        """Points of equipment and of converters' inputs, whatever they draw."""
        system, index = self.network.system, self.network.index
        inputs = (f"{converter}.input" for converter in system.converters)
        return {index[name] for name in (*system.equipment, *inputs)}

    def users_beyond(self, branch: int, forward: bool) -> bool:
        """Whether a consumer hangs beyond a branch, so that an overload may flow that way."""
        position = self.figures.position.get(branch)
        if position is not None:
            leaf = self.figures.shape.leaves[position]
            far = self.figures.shape.end[branch] if forward else self.figures.shape.start[branch]
            behind = self._users_behind[leaf]
            return behind > 0 if far == leaf else self._users_in(leaf) > behind
        key = (branch, forward)
        if key not in self._beyond:
            shape = self.figures.shape
            far = shape.end[branch] if forward else shape.start[branch]
            self._beyond[key] = any(p in self._users for p in self.reach.spread(far, branch))
        return self._beyond[key]

    @cached_property
    def _users_behind(self) -> list[int]:
        """Consumers at and behind each point of a tree, as it was peeled."""
        shape = self.figures.shape
        found = [0] * shape.size
        for point in self._users:
            found[point] += 1
        for leaf, parent in zip(shape.leaves, shape.parents, strict=True):
            found[parent] += found[leaf]
        return found

    def _users_in(self, point: int) -> int:
        """Consumers in the connected piece of a point."""
        if not self._users_of:
            island = self.figures.shape.island
            for user in self._users:
                self._users_of[island[user]] = self._users_of.get(island[user], 0) + 1
        return self._users_of.get(self.figures.shape.island[point], 0)

    def nothing_between(self, branch: int, forward: bool, feeder: int) -> bool:
        """Whether no consumer hangs between a device and another upstream of it.

        Then losing the one or the other is the same to everybody.
        """
        shape = self.figures.shape
        near = shape.start[branch] if forward else shape.end[branch]
        seen: set[int] = set()
        waiting = [near]
        while waiting:
            point = waiting.pop()
            if point in seen:
                continue
            zone = self.reach.zone(point, branch)
            if self._feeds_users(point, branch):
                return False
            seen.update(zone.lengths)
            for device, _, far in zone.devices:
                if device in (branch, feeder) or far in seen:
                    continue
                if self._feeds_users(far, branch):
                    return False
                waiting.append(far)
        return True

    def _feeds_users(self, point: int, without: int) -> bool:
        """Whether a consumer hangs on a point or what is joined to it with no device between."""
        if not self.reach.protective[without]:
            return not self._users.isdisjoint(self.reach.zone(point, without).lengths)
        if point not in self._fed_here:
            self._fed_here[point] = not self._users.isdisjoint(self.reach.zone(point).lengths)
        return self._fed_here[point]
