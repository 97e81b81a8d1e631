"""A piece of the system as it stands on a sheet: its places, then its marks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from coordination.diagram.build import Builder, Piece, parents_within
from coordination.diagram.cells import PITCH, Cell, Maker, grouped
from coordination.diagram.columns import set_columns
from coordination.diagram.ink import (
    BAR,
    FED,
    LIVE,
    SYMBOL,
    WIRE,
    Mark,
    Stroke,
    moved,
)
from coordination.diagram.lane import BEYOND, MARK, Bar, Lane
from coordination.diagram.marking import verdict_marks
from coordination.diagram.order import ordered
from coordination.diagram.symbols import symbol_height
from coordination.study.always_live import Live

#: Half the distance between the two lines of what is always live [px].
RAIL = 1.6


class Layout(NamedTuple):
    """A piece with its bars and lanes in their places; `left` is the leftmost of it."""

    piece: Piece
    bars: Mapping[str, Bar]
    line: Sequence[Lane]
    left: float
    width: float
    height: float


def lay_out(builder: Builder, piece: Piece) -> Layout:
    """Place a piece's bars and lanes; what would cross a bar is drawn as two flags."""
    parents = parents_within(builder.plan, piece)
    bars = builder.bars(piece)
    lanes = builder.lanes(piece)
    line, crossing = ordered(bars, lanes, piece.roots, parents)
    while crossing:
        names = {lane.name for lane in crossing}
        lanes = [lane for lane in lanes if lane.name not in names]
        edges = [lane.edge for lane in crossing if lane.edge is not None]
        lanes += [flag for edge in edges for flag in builder.flags(edge, set(piece.bars))]
        line, crossing = ordered(bars, lanes, piece.roots, parents)
    set_columns(bars, line)
    rects = [(lane.x, rect) for lane in line for rect in lane.rects()]
    left = min(x - rect.left for x, rect in rects)
    right = max(x + rect.right for x, rect in rects)
    bottom = max(rect.bottom for _, rect in rects)
    return Layout(piece, bars, line, left, right - left, bottom)


def draw(layout: Layout, maker: Maker, live: Live) -> tuple[Mark, ...]:
    """The marks of a piece, its upper left corner at (0, 0)."""
    pen = _Pen(maker, live)
    marks = [
        *(mark for lane in layout.line for mark in pen.lane(lane)),
        *(mark for key, bar in layout.bars.items() for mark in pen.bar(key, bar, layout.line)),
    ]
    return tuple(moved(mark, -layout.left, 0.0) for mark in marks)


class _Pen:
    def __init__(self, maker: Maker, live: Live) -> None:
        self.maker, self.live = maker, live

    def lane(self, lane: Lane) -> Iterator[Mark]:
        """The line with all its symbols."""
        at, point = lane.y0, self._first_point(lane)
        if lane.head is not None:
            yield self.maker.draw(lane.head, lane.x, at)
            at += _below(lane.head)
        y, place = lane.begins, 0
        for cell in lane.cells:
            if cell.kind == "link" and lane.edge is not None:
                if cell.shape != "cable":
                    yield from self._wire(lane.x, at, y + 3.0, point)
                    at = y + 3.0 + symbol_height(cell.shape)
                point = lane.edge.after(place)
                place += 1
            yield self.maker.draw(cell, lane.x, y)
            y += cell.height
        foot = lane.foot
        end = lane.y1 - foot.height if foot is not None else lane.y1
        yield from self._wire(lane.x, at, end + (6.0 if foot and foot.kind == "dot" else 0), point)
        if foot is not None:
            yield self.maker.draw(foot, lane.x, end)

    def _first_point(self, lane: Lane) -> str:
        if lane.edge is not None:
            return lane.edge.start.partition("\0")[0]
        return (lane.lower or lane.upper or "").partition("\0")[0]

    def _wire(self, x: float, top: float, bottom: float, point: str) -> Iterator[Mark]:
        if bottom <= top:
            return
        if point in self.live.kept:
            for side in (-RAIL, RAIL):
                yield Stroke(((x + side, top), (x + side, bottom)), LIVE)
        else:
            style = FED if point in self.live.fed else WIRE
            yield Stroke(((x, top), (x, bottom)), style)

    def bar(self, key: str, bar: Bar, line: Sequence[Lane]) -> Iterator[Mark]:
        """The bar or box with its label."""
        lines = [lane.x for lane in line if key in (lane.upper, lane.lower)]
        hosts = [lane.x for lane in line if bar in lane.hosted]
        left = min(lines) - BEYOND
        right = max([*lines, *(x + bar.label - BEYOND for x in hosts)]) + BEYOND
        marks: list[Mark] = [self._shape(bar, left, right)]
        for x in hosts:
            marks += self._label(bar, x)
        yield grouped(bar.cell, tuple(marks), links=self.maker.links)

    def _shape(self, bar: Bar, left: float, right: float) -> Mark:
        low = bar.y + bar.height
        corners = ((left, bar.y), (right, bar.y), (right, low), (left, low))
        if bar.boxed:
            return Stroke(corners, SYMBOL, closed=True)
        if bar.node.point in self.live.kept:
            return Stroke(corners, LIVE, closed=True)
        if bar.node.point in self.live.fed:
            return Stroke(corners, FED, closed=True)
        return Stroke(corners, BAR, closed=True, filled=True)

    def _label(self, bar: Bar, x: float) -> Iterator[Mark]:
        text = x + (-4.0 if bar.boxed else 8.0)
        top = bar.y + 6.0 if bar.boxed else bar.y - bar.zone + 1.0
        if bar.cell.verdict is not None:
            yield from verdict_marks(bar.cell.verdict.name, text + 8.0, top + 8.0)
            text += MARK
        for place, row in enumerate(bar.rows):
            yield row.at(text, top + PITCH * place)


def _below(cell: Cell) -> float:
    """How far below a head's top its line begins."""
    if cell.shape:
        return 3.0 + symbol_height(cell.shape)
    return 6.0 if cell.kind == "dot" else cell.height
