"""One chain as it runs down the sheet, and the bars it runs between."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from coordination.diagram.cells import LEFT, PITCH, TEXT_LEFT, Cell, Row
from coordination.diagram.graph import Edge, Node

#: Between a bar and the first cell under it; beside a bare line; beyond a bar's last line [px].
UNDER, BARE, BEYOND = 5.0, 9.0, 14.0
#: What a verdict's mark needs before a label [px].
MARK = 20.0
#: Height of a bar; least of a lane's bare part above what it ends at [px].
BAR, TAIL = 6.0, 6.0


class Rect(NamedTuple):
    """What a lane needs from `top` to `bottom`, to the left and to the right of its line [px].

    bar -- the bar it is needed for; lanes of one bar need not keep off each other there
    """

    top: float
    bottom: float
    left: float
    right: float
    bar: str = ""


@dataclass(slots=True)
class Bar:
    """A bar, or the box of equipment that several chains end at; `y` is its upper edge.

    rows -- its label: above a bar, inside a box, none at a source, whose symbol bears it
    cell -- what its verdict, name and currents are drawn from
    """

    node: Node
    cell: Cell
    rows: tuple[Row, ...]
    boxed: bool
    y: float = 0.0

    @property
    def height(self) -> float:
        """Of the bar or box [px]."""
        return PITCH * len(self.rows) + 12.0 if self.boxed else BAR

    @property
    def zone(self) -> float:
        """What its label needs above it [px]."""
        return 0.0 if self.boxed or not self.rows else PITCH * len(self.rows) + 5.0

    @property
    def label(self) -> float:
        """How far the label reaches to the right of the line it stands at [px]."""
        mark = MARK if self.cell.verdict is not None else 0.0
        return max((row.width for row in self.rows), default=0.0) + mark + 12.0


@dataclass(slots=True)
class Lane:
    """A chain, or only what stands at the end of a bar, from its top to its bottom.

    edge    -- the chain, directed downwards; None where there is none
    upper, lower -- the bars it runs between; where there is none, a cell stands at that end
    head, foot   -- those cells
    y0, y1  -- where it begins and ends, its end cells included; x -- where its line is
    above, below -- heights of those bars [px]
    hosted  -- bars whose label stands at this lane
    """

    name: str
    edge: Edge | None
    cells: tuple[Cell, ...]
    upper: str | None = None
    lower: str | None = None
    head: Cell | None = None
    foot: Cell | None = None
    link: bool = False
    y0: float = 0.0
    y1: float = 0.0
    x: float = 0.0
    above: float = BAR
    below: float = BAR
    hosted: list[Bar] = field(default_factory=list)

    @property
    def chain(self) -> float:
        """Height of its cells [px]."""
        return sum(cell.height for cell in self.cells)

    @property
    def begins(self) -> float:
        """Where its cells begin."""
        return self.y0 + (self.head.height if self.head else UNDER)

    @property
    def need(self) -> float:
        """From the bar or the head's top to the bar or the foot's top, at least [px]."""
        return (self.head.height if self.head else UNDER) + self.chain + TAIL

    def rects(self) -> list[Rect]:
        """What it needs beside its line."""
        found = [Rect(self.y0, self.y1, BARE, BARE)]
        y = self.y0
        if self.head is not None:
            found.append(_rect(self.head, y))
            y += self.head.height
        else:
            found.append(_end(y - self.above, y + 1.0, self.upper))
            y += UNDER
        for cell in self.cells:
            found.append(_rect(cell, y))
            y += cell.height
        if self.foot is not None:
            found.append(_rect(self.foot, self.y1 - self.foot.height))
        else:
            found.append(_end(self.y1 - 1.0, self.y1 + self.below, self.lower))
        for bar in self.hosted:
            label, key = bar.label + 4.0, bar.node.key
            found.append(Rect(bar.y - bar.zone, bar.y + bar.height, BEYOND + 4.0, label, key))
        return found


def _end(top: float, bottom: float, bar: str | None) -> Rect:
    """What the bar needs at a lane's end."""
    return Rect(top, bottom, BEYOND + 4.0, BEYOND + 4.0, bar or "")


def _rect(cell: Cell, top: float) -> Rect:
    left = LEFT if cell.verdict is not None else TEXT_LEFT
    return Rect(top, top + cell.height, left, cell.right)
