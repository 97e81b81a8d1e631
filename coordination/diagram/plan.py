"""Which nodes are drawn as bars, which hang on which, and which end of a chain is the upper one.

Batteries are on top: every bar hangs on the nearest bar that a battery stands on. Chains between
bars that are not needed for that are links; each of them has an upper end too.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from heapq import heappop, heappush
from typing import NamedTuple

from coordination.diagram.graph import Edge, Graph, Node
from coordination.model import Converter, Source

#: How far apart a chain's ends are: closed, along a converter's way, open, and against that way.
_NEAR, _CONVERTED, _OPEN, _AGAINST = 1, 15, 50, 60


class Plan(NamedTuple):
    """The drawing's order.

    bars   -- nodes drawn as bars, by key, nearest to the batteries first
    roots  -- bars that hang on no other, the one with most below it first
    parent -- bar to the bar it hangs on and the chain between
    tops   -- edge name to the key of its upper node
    """

    graph: Graph
    bars: Mapping[str, Node]
    roots: tuple[str, ...]
    parent: Mapping[str, tuple[str, Edge]]
    tops: Mapping[str, str]

    def children(self, bar: str) -> tuple[str, ...]:
        """The bars that hang on a bar."""
        return tuple(each for each, (above, _) in self.parent.items() if above == bar)

    def below(self, bar: str) -> tuple[str, ...]:
        """A bar and all that hang on it, however far down."""
        found = [bar]
        for each in found:
            found.extend(self.children(each))
        return tuple(found)


def plan_of(graph: Graph, closed: frozenset[str]) -> Plan:
    """The order of a graph; `closed`: names of elements that are closed in the condition drawn."""
    bars = _bars(graph)
    between = [edge for edge in graph.edges if edge.start in bars and edge.end in bars]
    inner = {edge.name for edge in between}
    distance, parent = _nearest(_roots(graph, bars, between), between, closed)
    ordered = {key: bars[key] for key in distance}
    kin = _kin(parent, ordered)
    sizes = {root: sum(each == root for each in kin.values()) for root in ordered}
    roots = [key for key in ordered if key not in parent]
    roots.sort(key=lambda key: -sizes[key])
    leaves = [edge for edge in graph.edges if edge.name not in inner]
    tops = {edge.name: _leaf_top(graph, edge, bars) for edge in leaves}
    tops.update({edge.name: above for above, edge in parent.values()})
    _orient_links(between, ordered, tops)
    return Plan(graph, ordered, tuple(roots), parent, tops)


def _bars(graph: Graph) -> dict[str, Node]:
    """Busbars, whatever more than one chain ends at, and an end of chains between two leaves."""
    count: dict[str, int] = {}
    for edge in graph.edges:
        for key in (edge.start, edge.end):
            count[key] = count.get(key, 0) + 1
    bars = {
        key: node
        for key, node in graph.nodes.items()
        if node.kind == "busbar" or count.get(key, 0) != 1
    }
    for edge in graph.edges:
        if edge.start not in bars and edge.end not in bars:
            ends = sorted((edge.start, edge.end), key=lambda key: graph.nodes[key].kind != "source")
            bars[ends[0]] = graph.nodes[ends[0]]
    return {key: node for key, node in graph.nodes.items() if key in bars}


def _roots(graph: Graph, bars: Mapping[str, Node], between: Iterable[Edge]) -> list[str]:
    """Bars with a battery; in a piece without, the first with any source, else its first."""
    grade = {key: _grade(graph, key) for key in bars}
    found = [key for key in bars if grade[key] == 2]
    for piece in _pieces(bars, between):
        if not any(grade[key] == 2 for key in piece):
            found.append(max(piece, key=lambda key: grade[key]))
    return found


def _grade(graph: Graph, key: str) -> int:
    things = [graph.nodes[key].thing]
    things += [graph.nodes[edge.other(key)].thing for edge in graph.at(key)]
    sources = [each for each in things[:1] if isinstance(each, Source)]
    for edge in graph.at(key):
        other = graph.nodes[edge.other(key)]
        if isinstance(other.thing, Source) and len(graph.at(other.key)) == 1:
            sources.append(other.thing)
    if any(each.part is not None for each in sources):
        return 2
    return 1 if sources else 0


def _pieces(bars: Mapping[str, Node], between: Iterable[Edge]) -> list[list[str]]:
    """Bars that are joined, whatever way."""
    group = {key: {key} for key in bars}
    for edge in between:
        if group[edge.start] is not group[edge.end]:
            group[edge.start] |= group[edge.end]
            for key in group[edge.end]:
                group[key] = group[edge.start]
    unique = {id(each): each for each in group.values()}
    return [[key for key in bars if key in each] for each in unique.values()]


def _nearest(
    roots: list[str], between: Iterable[Edge], closed: frozenset[str]
) -> tuple[dict[str, int], dict[str, tuple[str, Edge]]]:
    """Distance of every bar from its nearest root, nearest first, and what it hangs on."""
    around: dict[str, list[Edge]] = {}
    for edge in between:
        around.setdefault(edge.start, []).append(edge)
        around.setdefault(edge.end, []).append(edge)
    distance: dict[str, int] = {}
    parent: dict[str, tuple[str, Edge]] = {}
    heap: list[tuple[int, int, str, tuple[str, Edge] | None]] = []
    for place, root in enumerate(roots):
        heappush(heap, (0, place, root, None))
    count = len(roots)
    while heap:
        far, _, key, above = heappop(heap)
        if key in distance:
            continue
        distance[key] = far
        if above is not None:
            parent[key] = above
        for edge in around.get(key, ()):
            count += 1
            step = _step(edge.from_(key), closed)
            heappush(heap, (far + step, count, edge.other(key), (key, edge)))
    return distance, parent


def _step(edge: Edge, closed: frozenset[str]) -> int:
    step = _NEAR
    for place, link in enumerate(edge.links):
        if isinstance(link, Converter):
            step += _CONVERTED if edge.before(place) == f"{link.name}.input" else _AGAINST
        elif link.name not in closed:
            step += _OPEN
    return step


def _kin(parent: Mapping[str, tuple[str, Edge]], ordered: Iterable[str]) -> dict[str, str]:
    """Bar to its root."""
    kin: dict[str, str] = {}
    for key in ordered:
        kin[key] = kin[parent[key][0]] if key in parent else key
    return kin


def _leaf_top(graph: Graph, edge: Edge, bars: Mapping[str, Node]) -> str:
    """Sources stand on top, and what nobody feeds; everything else hangs below."""
    leaf = edge.end if edge.start in bars else edge.start
    node = graph.nodes[leaf]
    above = node.kind == "source" or (node.point.endswith(".input") and node.kind == "terminal")
    return leaf if above else edge.other(leaf)


def _orient_links(
    between: Iterable[Edge], ordered: Mapping[str, Node], tops: dict[str, str]
) -> None:
    """An upper end for each link, so that no way down comes back to where it began."""
    down: dict[str, set[str]] = {}
    place = {key: number for number, key in enumerate(ordered)}
    links = []
    for edge in between:
        if edge.name in tops:
            down.setdefault(tops[edge.name], set()).add(edge.other(tops[edge.name]))
        else:
            links.append(edge)
    for edge in links:
        top = _wished_top(edge, ordered, place)
        if _leads(down, edge.other(top), top):
            top = edge.other(top)
        tops[edge.name] = top
        down.setdefault(top, set()).add(edge.other(top))


def _wished_top(edge: Edge, ordered: Mapping[str, Node], place: Mapping[str, int]) -> str:
    for number, link in enumerate(edge.links):
        if isinstance(link, Converter):
            return edge.start if edge.before(number) == f"{link.name}.input" else edge.end
    ends = (edge.start, edge.end)
    return min(ends, key=lambda key: (ordered[key].kind != "source", place[key]))


def _leads(down: Mapping[str, set[str]], start: str, goal: str) -> bool:
    """Whether the goal is reached on the way down from a bar."""
    found = [start]
    for key in found:
        found.extend(each for each in down.get(key, ()) if each not in found)
    return goal in found
