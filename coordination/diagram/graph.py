"""What is joined to what on the drawing: nodes, and edges that are chains of elements.

A converter with one circuit at either terminal is part of the chain that runs through it. A
junction inside a circuit that another circuit is joined to is a node.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from catalogue.frozen import dataclass
from coordination.model import Busbar, Circuit, Converter, Element, Equipment, Source, System

#: What stands at a node; None at a junction, at a converter's terminal and at a flag.
Thing = Source | Busbar | Equipment | None
#: What a chain is made of.
Link = Element | Converter


@dataclass(frozen=True, slots=True)
class Node:
    """A point where circuits end.

    point -- its name; kind -- "source", "busbar", "equipment", "terminal" or "junction"
    part  -- 0, or which continuation of a busbar that was too long for one sheet
    """

    point: str
    kind: str
    thing: Thing = None
    part: int = 0

    @property
    def key(self) -> str:
        """What tells it from every other node."""
        return f"{self.point}\0{self.part}"


@dataclass(frozen=True, slots=True)
class Edge:
    """A chain between two nodes, by key; `points` are those between its links, in order.

    circuits -- the names of the circuits it runs along
    """

    start: str
    end: str
    links: tuple[Link, ...]
    points: tuple[str, ...]
    circuits: tuple[str, ...]

    @property
    def name(self) -> str:
        """What tells it from every other edge."""
        return min(link.name for link in self.links)

    def turned(self) -> Edge:
        """The same chain from its other end."""
        return Edge(self.end, self.start, self.links[::-1], self.points[::-1], self.circuits[::-1])

    def from_(self, node: str) -> Edge:
        """The chain beginning at one of its nodes."""
        return self if self.start == node else self.turned()

    def before(self, link: int) -> str:
        """The point at which a link, by its place, begins."""
        return self.points[link - 1] if link else self.start.partition("\0")[0]

    def after(self, link: int) -> str:
        """The point at which a link, by its place, ends."""
        last = link == len(self.links) - 1
        return self.end.partition("\0")[0] if last else self.points[link]

    def other(self, node: str) -> str:
        """The node at its other end."""
        return self.end if self.start == node else self.start


@dataclass(frozen=True, slots=True)
class Graph:
    """Nodes by key and edges, in the file's order."""

    nodes: Mapping[str, Node]
    edges: tuple[Edge, ...]

    def at(self, node: str) -> tuple[Edge, ...]:
        """The edges that end at a node."""
        return tuple(edge for edge in self.edges if node in (edge.start, edge.end))


def graph_of(system: System) -> Graph:
    """The drawing's graph of a system."""
    ends = [end for each in system.circuits.values() for end in (each.start, each.end)]
    nodes = {node.key: node for node in _nodes(system, ends)}
    pieces = [piece for each in system.circuits.values() for piece in _pieces(each, nodes)]
    for name, converter in system.converters.items():
        pieces.append(Edge(f"{name}.input\0000", f"{name}.output\0000", (converter,), (), ()))
    terminals = {f"{name}.{side}" for name in system.converters for side in ("input", "output")}
    for point in sorted(terminals):
        if ends.count(point) == 1:
            pieces = _joined(pieces, nodes, f"{point}\0000")
    return Graph(nodes, tuple(pieces))


def _nodes(system: System, ends: Iterable[str]) -> Iterator[Node]:
    for source in system.sources.values():
        yield Node(source.name, "source", source)
    for busbar in system.busbars.values():
        yield Node(busbar.name, "busbar", busbar)
    for equipment in system.equipment.values():
        yield Node(equipment.name, "equipment", equipment)
    for name in system.converters:
        yield Node(f"{name}.input", "terminal")
        yield Node(f"{name}.output", "terminal")
    known = {*system.sources, *system.busbars, *system.equipment}
    terminals = {f"{name}.{side}" for name in system.converters for side in ("input", "output")}
    for point in dict.fromkeys(ends):
        if point not in known and point not in terminals:
            yield Node(point, "junction")


def _pieces(circuit: Circuit, nodes: Mapping[str, Node]) -> Iterator[Edge]:
    """A circuit, cut at the junctions that other circuits are joined to."""
    start, links, points = circuit.start, list[Link](), list[str]()
    for element in circuit.elements:
        links.append(element)
        last = element is circuit.elements[-1]
        if last or f"{element.end}\0000" in nodes:
            yield Edge(
                f"{start}\0000", f"{element.end}\0000", tuple(links), tuple(points), (circuit.name,)
            )
            start, links, points = element.end, [], []
        else:
            points.append(element.end)


def _joined(pieces: list[Edge], nodes: dict[str, Node], key: str) -> list[Edge]:
    """The two chains that meet at a terminal as one, in the place of the first.

    A chain that would end where it begins is left in two.
    """
    first, second = (each for each in pieces if key in (each.start, each.end))
    before, after = first.from_(first.other(key)), second.from_(key)
    if before.start == after.end:
        return pieces
    whole = Edge(
        before.start,
        after.end,
        (*before.links, *after.links),
        (*before.points, nodes.pop(key).point, *after.points),
        (*before.circuits, *after.circuits),
    )
    return [whole if each is first else each for each in pieces if each is not second]
