"""What a number rests on: which unknown figure spoils which result.

The network with all its sources tied to one common point falls into blocks that no single point
separates. Current between that point and any other runs through the blocks on the way and through
every branch of them, and through no other. So a fault or a voltage rests on the blocks on its way;
how a current is shared rests on the branch's own block; a branch that is a block by itself carries
what is drawn behind it, whatever its resistance.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from catalogue.frozen import dataclass, field


@dataclass(slots=True)
class Block:
    """Branches that no single point separates; `top` is its point nearest to the sources."""

    top: int
    edges: list[int] = field(default_factory=list)


class Blocks:
    """The blocks of a network, by branch and by point."""

    def __init__(self, size: int, ends: Sequence[tuple[int, int]], ties: Sequence[int]) -> None:
        """ends -- of every branch; ties -- points at which sources stand, one edge each.

        Edges are numbered: branches first, then ties.
        """
        self.ground = size
        self.of_edge: list[int] = [-1] * (len(ends) + len(ties))
        self.above: list[int] = [-1] * (size + 1)
        self.blocks: list[Block] = []
        around: list[list[tuple[int, int]]] = [[] for _ in range(size + 1)]
        for edge, (one, other) in enumerate((*ends, *((tie, size) for tie in ties))):
            if one != other:
                around[one].append((edge, other))
                around[other].append((edge, one))
        _find(self, around)

    def way(self, point: int) -> Iterable[int]:
        """Numbers of the blocks between a point and the sources, the point's own first."""
        block = self.above[point]
        while block >= 0:
            yield block
            block = self.above[self.blocks[block].top]

    def single(self, edge: int) -> bool:
        """Whether an edge is a block by itself: what it carries does not depend on resistances."""
        block = self.of_edge[edge]
        return block < 0 or len(self.blocks[block].edges) == 1


def _find(found: Blocks, around: list[list[tuple[int, int]]]) -> None:
    """Walk in depth from the common point (Hopcroft and Tarjan 1973), without recursion."""
    entered = [0] * len(around)
    lowest = [0] * len(around)
    clock = 0
    for start in (found.ground, *range(len(around) - 1)):
        if entered[start]:
            continue
        clock += 1
        entered[start] = lowest[start] = clock
        edges: list[int] = []
        points: list[int] = []
        path = [(start, -1, iter(around[start]))]
        while path:
            point, came, rest = path[-1]
            for edge, beyond in rest:
                if edge == came:
                    continue
                if not entered[beyond]:
                    clock += 1
                    entered[beyond] = lowest[beyond] = clock
                    edges.append(edge)
                    points.append(beyond)
                    path.append((beyond, edge, iter(around[beyond])))
                    break
                if entered[beyond] < entered[point]:
                    edges.append(edge)
                    lowest[point] = min(lowest[point], entered[beyond])
            else:
                path.pop()
                if path:
                    parent = path[-1][0]
                    lowest[parent] = min(lowest[parent], lowest[point])
                    if lowest[point] >= entered[parent]:
                        _close(found, edges, points, came, point, parent)


def _close(
    found: Blocks, edges: list[int], points: list[int], first: int, entry: int, top: int
) -> None:
    """Take the edges since `first`, and the points since `entry`, as one block below `top`."""
    number = len(found.blocks)
    block = Block(top)
    found.blocks.append(block)
    edge = point = -1
    while edge != first:
        edge = edges.pop()
        block.edges.append(edge)
        found.of_edge[edge] = number
    while point != entry:
        point = points.pop()
        found.above[point] = number
