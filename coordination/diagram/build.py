"""From a piece of the plan to its bars and lanes, with all that is written at them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import NamedTuple

from coordination.diagram.cells import Cell, Maker, Row
from coordination.diagram.facts import Line, current_line, thing_lines
from coordination.diagram.graph import Edge, Node
from coordination.diagram.lane import Bar, Lane
from coordination.diagram.plan import Plan
from coordination.model import Busbar, Element, Equipment, Source
from coordination.report.anchors import DEVICE, POINT, anchor
from coordination.report.wording import clean

#: Widest label of a bar [px].
LABEL_WIDTH = 210.0
_HERE = "this sheet"

#: Gives the number of the sheet that a bar is on, None until it is known.
SheetOf = Callable[[str], int | None]


class Piece(NamedTuple):
    """Bars that are drawn together, by key, and the roots among them."""

    bars: tuple[str, ...]
    roots: tuple[str, ...]


class Builder:
    """Makes bars and lanes of pieces of one plan."""

    def __init__(self, plan: Plan, maker: Maker, sheet_of: SheetOf) -> None:
        self.plan, self.maker, self.sheet_of = plan, maker, sheet_of

    def bars(self, piece: Piece) -> dict[str, Bar]:
        """The bars of a piece, by key."""
        return {key: self._bar(self.plan.bars[key]) for key in piece.bars}

    def _bar(self, node: Node) -> Bar:
        boxed = isinstance(node.thing, Equipment)
        rows = self._label(node)
        name = node.thing.name if node.thing is not None else ""
        verdict = None if node.part else self.maker.marked.get(name)
        if node.kind == "source" or node.part:
            cell = Cell("bar", rows, title=clean(node.point))
        else:
            title = f"{clean(node.point)}: {verdict.words}" if verdict else clean(node.point)
            cell = Cell("bar", rows, name, node.point, verdict=verdict, title=title)
        return Bar(node, cell, rows, boxed)

    def _label(self, node: Node) -> tuple[Row, ...]:
        if node.kind == "source":
            return ()
        if node.part:
            sheet = self._sheet(f"{node.point}\0000", node.key)
            where = self.maker.put("continued from {sheet}", sheet=sheet)
            return self._fit(Line(clean(node.point), "name"), Line(where))
        currents = current_line(self.maker.study, node.point)
        if node.thing is None:
            return self._fit(Line(clean(node.point), "name"), currents)
        lines = [*thing_lines(self.maker.study, node.thing), currents]
        if isinstance(node.thing, Busbar):
            lines += [Line(text) for text in self._continued(node)]
        return self._fit(*lines)

    def _fit(self, *lines: Line) -> tuple[Row, ...]:
        return self.maker.fitted(lines, LABEL_WIDTH)

    def _continued(self, node: Node) -> Iterator[str]:
        parts = [key for key, each in self.plan.bars.items() if each.point == node.point]
        if sheets := dict.fromkeys(self._sheet(key, node.key) for key in parts[1:]):
            yield self.maker.put("continued on {sheets}", sheets=", ".join(sheets))

    def _sheet(self, bar: str, here: str) -> str:
        """Where a bar is, for who looks at another; as wide as it can be until that is known."""
        sheet = self.sheet_of(bar)
        other = sheet is not None and sheet != self.sheet_of(here)
        return self.maker.put("sheet {sheet}", sheet=sheet) if other else self.maker.said(_HERE)

    def lanes(self, piece: Piece) -> list[Lane]:
        """The lanes of a piece, in the file's order."""
        inside = set(piece.bars)
        found = [*self._posts(piece)]
        for edge in self.plan.graph.edges:
            top = self.plan.tops[edge.name]
            directed = edge.from_(top)
            if top in inside or directed.end in inside:
                found += self._of_edge(directed, inside)
        used = {key for lane in found for key in (lane.upper, lane.lower)}
        found += [Lane(key, None, (), upper=key) for key in piece.bars if key not in used]
        return found

    def _posts(self, piece: Piece) -> Iterator[Lane]:
        """Sources that are bars stand on them."""
        for key in piece.bars:
            thing = self.plan.bars[key].thing
            if isinstance(thing, Source):
                yield Lane(f"{key}\0post", None, (), lower=key, head=self.maker.source(thing))

    def _of_edge(self, edge: Edge, inside: set[str]) -> Iterator[Lane]:
        """A chain's lane; where its ends are on two sheets, one lane on either."""
        bars = self.plan.bars
        apart = edge.start in bars and edge.end in bars and not {edge.start, edge.end} <= inside
        if apart:
            yield from self.flags(edge, inside)
            return
        upper = edge.start if edge.start in bars else None
        lower = edge.end if edge.end in bars else None
        hangs = self.plan.parent.get(edge.end)
        tree = hangs is not None and hangs[1].name == edge.name
        yield Lane(
            edge.name, edge, tuple(self._cells(edge)), upper, lower,
            head=None if upper else self._head(self.plan.graph.nodes[edge.start]),
            foot=None if lower else self._foot(self.plan.graph.nodes[edge.end]),
            link=upper is not None and lower is not None and not tree,
        )  # fmt: skip

    def flags(self, edge: Edge, inside: set[str]) -> Iterator[Lane]:
        """A chain to another sheet, or one that would cross: drawn at its upper end."""
        put = self.maker.put
        name = self.maker.said(" and ").join(map(clean, edge.circuits)) or clean(edge.name)
        if edge.start in inside:
            lines = (put("to {place}", place=_place(edge.end)), self._sheet(edge.end, edge.start))
            foot = self.maker.flag("flag down", (name, *lines), self._target(edge.end))
            yield Lane(edge.name, edge, tuple(self._cells(edge)), upper=edge.start, foot=foot)
        if edge.end in inside:
            sheet = self._sheet(edge.start, edge.end)
            flagged = (name, put("from {place}", place=_place(edge.start)), sheet)
            head = self.maker.flag("flag up", flagged, self._target(edge.start))
            yield Lane(f"{edge.name}\0in", None, (), lower=edge.end, head=head)

    def _target(self, key: str) -> str:
        """The place of a bar in the document."""
        node = self.plan.bars[key]
        return anchor(POINT if node.thing is None else DEVICE, node.point)

    def _cells(self, edge: Edge) -> Iterator[Cell]:
        circuit = ""
        for place, link in enumerate(edge.links):
            if isinstance(link, Element) and link.circuit != circuit:
                circuit = link.circuit
                yield self.maker.circuit(circuit)
            yield self.maker.link(link)
            if place < len(edge.points):
                yield self.maker.point(edge.points[place])

    def _head(self, node: Node) -> Cell:
        if isinstance(node.thing, Source):
            return self.maker.source(node.thing)
        return self.maker.dot(node.point)

    def _foot(self, node: Node) -> Cell:
        if isinstance(node.thing, Equipment):
            return self.maker.equipment(node.thing)
        return self.maker.dot(node.point)


def _place(key: str) -> str:
    return clean(key.partition("\0")[0])


def split(plan: Plan, bar: str, groups: Iterable[Iterable[str]]) -> Plan:
    """The plan with a bar continued: each further group of chains, by name, on a bar of its own."""
    node = plan.bars[bar]
    moved: dict[str, str] = {}
    bars: dict[str, Node] = {}
    for key, each in plan.bars.items():
        bars[key] = each
        if key == bar:
            for part, names in enumerate(groups, 1):
                own = node_part(node, part)
                bars[own.key] = own
                moved.update(dict.fromkeys(names, own.key))
    edges = tuple(_ended(edge, bar, moved.get(edge.name, bar)) for edge in plan.graph.edges)
    by_name = {edge.name: edge for edge in edges}
    tops = {
        name: moved[name] if name in moved and top == bar else top
        for name, top in plan.tops.items()
    }
    parent = {
        child: (moved.get(edge.name, above) if above == bar else above, by_name[edge.name])
        for child, (above, edge) in plan.parent.items()
    }
    graph = plan.graph.__class__({**plan.graph.nodes, **bars}, edges)
    roots = (*plan.roots, *dict.fromkeys(moved.values()))
    return Plan(graph, bars, roots, parent, tops)


def node_part(node: Node, part: int) -> Node:
    """The continuation of a bar."""
    return Node(node.point, node.kind, node.thing, part)


def _ended(edge: Edge, bar: str, key: str) -> Edge:
    if key == bar:
        return edge
    start, end = (key if each == bar else each for each in (edge.start, edge.end))
    return Edge(start, end, edge.links, edge.points, edge.circuits)


def parents_within(plan: Plan, piece: Piece) -> Mapping[str, str]:
    """Bar to the bar it hangs on, both in the piece."""
    inside = set(piece.bars)
    return {
        key: plan.parent[key][0]
        for key in piece.bars
        if key in plan.parent and plan.parent[key][0] in inside
    }
