"""The shape of a network without its numbers: trees peeled off leaf by leaf, and what is left.

Peeling leaves nothing of a radial network but one point. What is left of a looped one, its core,
is cut into chains between junctions. Both are the same for every bound, so they are found once.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from catalogue.frozen import dataclass


@dataclass(slots=True)
class Chain:
    """Branches in series between two junctions of the core (the same one twice: a lasso).

    nodes    -- interior points, from `head` to `tail`
    branches -- one more than nodes, in the same direction
    forward  -- whether each branch is drawn in that direction
    """

    head: int
    tail: int
    nodes: list[int]
    branches: list[int]
    forward: list[bool]


@dataclass(slots=True)
class Topology:
    """A network's shape.

    leaves, parents, vias -- points in peeling order, what each hung on and by which branch
    roots     -- points left alone: one for each island without loops
    core      -- junctions; chains -- what joins them; chain_of -- interior point to chain number
    chain_with -- branch of the core to its chain number
    island    -- number of the connected piece of each point
    batteries, sources -- counts at and behind each point as it was peeled
    island_batteries, island_sources -- counts per island
    """

    size: int
    start: list[int]
    end: list[int]
    leaves: list[int]
    parents: list[int]
    vias: list[int]
    roots: list[int]
    core: list[int]
    chains: list[Chain]
    chain_of: dict[int, int]
    chain_with: dict[int, int]
    island: list[int]
    batteries: list[int]
    sources: list[int]
    island_batteries: list[int]
    island_sources: list[int]


def survey(
    size: int,
    start: list[int],
    end: list[int],
    batteries: Iterable[int] = (),
    injections: Iterable[int] = (),
) -> Topology:
    """The shape of a network of `size` points with branches from `start[i]` to `end[i]`.

    batteries, injections -- the points at which they stand (a point may come several times)
    """
    degree, leaves, parents, vias = _peel(size, start, end)
    fed, sourced = _counts(size, batteries, injections, leaves, parents)
    core_points = [point for point in range(size) if degree[point] > 1]
    core, chains = _chains(core_points, degree, start, end, sourced)
    taken = bytearray(size)
    for leaf in leaves:
        taken[leaf] = 1
    roots = [point for point in range(size) if degree[point] < 1 and not taken[point]]
    shape = Topology(
        size,
        start,
        end,
        leaves,
        parents,
        vias,
        roots,
        core,
        chains,
        {},
        {},
        [],
        fed,
        sourced,
        [],
        [],
    )
    for number, chain in enumerate(chains):
        shape.chain_of.update(dict.fromkeys(chain.nodes, number))
        shape.chain_with.update(dict.fromkeys(chain.branches, number))
    _find_islands(shape, core_points)
    return shape


def _counts(
    size: int,
    batteries: Iterable[int],
    injections: Iterable[int],
    leaves: list[int],
    parents: list[int],
) -> tuple[list[int], list[int]]:
    """Batteries, and sources of either kind, at and behind each point as it was peeled."""
    fed, sourced = [0] * size, [0] * size
    for point in batteries:
        fed[point] += 1
        sourced[point] += 1
    for point in injections:
        sourced[point] += 1
    for leaf, parent in zip(leaves, parents, strict=True):
        if sourced[leaf]:
            fed[parent] += fed[leaf]
            sourced[parent] += sourced[leaf]
    return fed, sourced


def _peel(
    size: int, start: list[int], end: list[int]
) -> tuple[list[int], list[int], list[int], list[int]]:
    """Take leaves off until none is left; a point's last branch is the XOR of what is left."""
    degree, last = [0] * size, [0] * size
    for branch, (one, other) in enumerate(zip(start, end, strict=True)):
        if one == other:
            continue
        degree[one] += 1
        degree[other] += 1
        last[one] ^= branch
        last[other] ^= branch
    leaves: list[int] = []
    parents: list[int] = []
    vias: list[int] = []
    waiting = [point for point in range(size) if degree[point] == 1]
    for point in waiting:
        if degree[point] != 1:
            continue
        branch = last[point]
        parent = start[branch] ^ end[branch] ^ point
        degree[point] = 0
        leaves.append(point)
        parents.append(parent)
        vias.append(branch)
        last[parent] ^= branch
        degree[parent] -= 1
        if degree[parent] == 1:
            waiting.append(parent)
    return degree, leaves, parents, vias


def _chains(
    points: list[int], degree: list[int], start: list[int], end: list[int], sourced: list[int]
) -> tuple[list[int], list[Chain]]:
    """Junctions of the core, and the chains between them."""
    if not points:
        return [], []
    around: dict[int, list[tuple[int, int]]] = {point: [] for point in points}
    for branch, (one, other) in enumerate(zip(start, end, strict=True)):
        if degree[one] > 1 and degree[other] > 1 and one != other:
            around[one].append((branch, other))
            around[other].append((branch, one))
    junctions = [point for point in points if degree[point] > 2 or sourced[point]]
    stops = set(junctions)
    used: set[int] = set()
    chains: list[Chain] = []
    for point in junctions:
        _follow_all(point, stops, around, start, used, chains)
    walked = stops.union(*(chain.nodes for chain in chains))
    for point in points:
        if point not in walked:
            junctions.append(point)
            _follow_all(point, {point}, around, start, used, chains)
            walked.update((point, *chains[-1].nodes))
    return junctions, chains


def _follow_all(
    head: int,
    junctions: set[int],
    around: dict[int, list[tuple[int, int]]],
    start: list[int],
    used: set[int],
    chains: list[Chain],
) -> None:
    """Add the chains that leave one junction and were not yet walked from their other end."""
    for first, second in around[head]:
        if first in used:
            continue
        chain = Chain(head, second, [], [first], [start[first] == head])
        used.add(first)
        point = second
        while point not in junctions:
            chain.nodes.append(point)
            (one, to_one), (other, to_other) = around[point]
            branch, beyond = (other, to_other) if one == chain.branches[-1] else (one, to_one)
            used.add(branch)
            chain.branches.append(branch)
            chain.forward.append(start[branch] == point)
            point = beyond
        chain.tail = point
        chains.append(chain)


def _find_islands(shape: Topology, core_points: Sequence[int]) -> None:
    """Number the connected pieces and count their sources."""
    above: dict[int, int] = {point: point for point in shape.core}

    def top(point: int) -> int:
        while above[point] != point:
            above[point] = above[above[point]]
            point = above[point]
        return point

    for chain in shape.chains:
        above[top(chain.head)] = top(chain.tail)
    numbers: dict[int, int] = {}
    shape.island = island = [-1] * shape.size
    for root in shape.roots:
        island[root] = len(shape.island_batteries)
        shape.island_batteries.append(shape.batteries[root])
        shape.island_sources.append(shape.sources[root])
    for point in core_points:
        chain_number = shape.chain_of.get(point)
        junction = point if chain_number is None else shape.chains[chain_number].head
        number = numbers.setdefault(top(junction), len(shape.island_batteries))
        if number == len(shape.island_batteries):
            shape.island_batteries.append(0)
            shape.island_sources.append(0)
        island[point] = number
        shape.island_batteries[number] += shape.batteries[point]
        shape.island_sources[number] += shape.sources[point]
    for leaf, parent in zip(reversed(shape.leaves), reversed(shape.parents), strict=True):
        island[leaf] = island[parent]
