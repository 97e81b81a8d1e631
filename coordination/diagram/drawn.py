"""From findings to the sheets of a one-line diagram as marks, for any kind of file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.diagram.block import Layout, draw, lay_out
from coordination.diagram.build import Builder, Piece
from coordination.diagram.cells import Maker
from coordination.diagram.frame import EDGE, INSIDE, Title, frame_marks
from coordination.diagram.graph import graph_of
from coordination.diagram.ink import Group, Mark, moved
from coordination.diagram.live import live_points
from coordination.diagram.marking import verdicts
from coordination.diagram.packing import Placed, packed
from coordination.diagram.paper import A3, A4, SNUG, Paper, grown, trimmed
from coordination.diagram.pieces import Cutter
from coordination.diagram.plan import Plan, plan_of
from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.rules.finding import Findings

#: The condition whose switch positions and currents are drawn, where none is asked for.
NORMAL = "normal"
#: A number of a sheet as wide as any that there will be, until they are known.
_WIDEST = 99


class Page(NamedTuple):
    """A sheet before it is a file: its marks, its size [px], and what it is told to be.

    scale -- size on paper to this size; less than 1 where it is printed smaller
    """

    title: str
    description: str
    marks: tuple[Mark, ...]
    width: float
    height: float
    scale: float = 1.0


def pages_of(
    findings: Findings, when: date, condition: str | None = None, *,
    links: bool = False, whole_paper: bool = False,
) -> tuple[Page, ...]:  # fmt: skip
    """The sheets, as `one_line` describes them. Raises KeyError: the condition was not studied.

    whole_paper -- as large as the paper they are laid out for, not as small as they can be
    """
    studies = findings.studies
    name = condition or (NORMAL if NORMAL in studies else next(iter(studies)))
    study = studies[name]
    maker = Maker(study, verdicts(findings.findings), links=links)
    drawing = _Drawing(study, maker)
    paper, sheets = drawing.laid_out()
    sizes = [_size(drawing, sheet) for sheet in sheets]
    widest = max((width for width, _ in sizes), default=0.0)
    papers = [paper if whole_paper else trimmed(widest, height) for _, height in sizes]
    return tuple(
        _page(findings, drawing, papers[number - 1], sheets, number, (name, when))
        for number in range(1, len(sheets) + 1)
    )


class _Drawing:
    """A system's pieces, laid out twice: to see which fit on a sheet, then with sheet numbers."""

    def __init__(self, study: Any, maker: Maker) -> None:
        self.maker = maker
        self.live = live_points(study.system)
        closed = frozenset(e.name for e in study.system.elements() if study.closed(e))
        self._plan = plan_of(graph_of(study.system), closed)
        self._sheet_of: Mapping[str, int] = {}
        self._laid: dict[Piece, tuple[Plan, Layout]] = {}
        self.layouts: tuple[Layout, ...] = ()

    def laid_out(self) -> tuple[Paper, Sequence[Sequence[Placed]]]:
        """The paper and what is where on each sheet: one sheet if it fits on one."""
        cutter = Cutter(self._plan, A3.room, self._lay)
        for paper in (A4, A3, SNUG) if cutter.few() else ():
            sheets = self._on(paper, cutter.whole())
            if len(sheets) == 1 and self._fits(paper):
                return paper, sheets
        pieces = cutter.pieces()
        self._plan = cutter.plan
        sheets = self._on(A3, pieces)
        paper = A3
        for each in self.layouts:
            paper = grown(paper, each.width, each.height)
        self._sheet_of = {
            bar: number
            for number, sheet in enumerate(sheets, 1)
            for placed in sheet
            for bar in self.layouts[placed.block].piece.bars
        }
        self._laid.clear()
        self.layouts = tuple(self._lay(self._plan, each.piece) for each in self.layouts)
        return paper, sheets

    def _on(self, paper: Paper, pieces: Sequence[Piece]) -> Sequence[Sequence[Placed]]:
        self.layouts = tuple(self._lay(self._plan, piece) for piece in pieces)
        return packed(self.layouts, paper.room)

    def _fits(self, paper: Paper) -> bool:
        width, height = paper.room
        return all(each.width <= width and each.height <= height for each in self.layouts)

    def _lay(self, plan: Plan, piece: Piece) -> Layout:
        kept = self._laid.get(piece)
        if kept is None or kept[0] is not plan:
            kept = (plan, lay_out(Builder(plan, self.maker, self._number), piece))
            self._laid[piece] = kept
        return kept[1]

    def _number(self, bar: str) -> int:
        return self._sheet_of.get(bar, _WIDEST)


def _page(
    findings: Findings, drawing: _Drawing, paper: Paper, sheets: Sequence[Sequence[Placed]],
    number: int, named: tuple[str, date],
) -> Page:  # fmt: skip
    condition, when = named
    left, top = _origin(drawing, paper, sheets[number - 1])
    marks: list[Mark] = []
    for placed in sheets[number - 1]:
        for mark in draw(drawing.layouts[placed.block], drawing.maker, drawing.live):
            marks.append(moved(mark, left + placed.x, top + placed.y))
    rows = (
        ("System", clean(findings.system.name)),
        ("File", clean(findings.file)),
        ("Condition", clean(condition)),
        ("Date", when.isoformat()),
        ("Sheet", f"{number} of {len(sheets)}"),
    )
    title = f"One-line diagram of {clean(findings.system.name)}"
    if sheets[1:]:
        title += f", sheet {number} of {len(sheets)}"
    frame = Group(tuple(frame_marks(paper.width, paper.height, Title(rows))))
    description = _description(findings, drawing, sheets[number - 1], condition)
    scale = A3.width / SNUG.width if paper == SNUG else 1.0
    return Page(title, description, (frame, *marks), paper.width, paper.height, scale)


def _origin(drawing: _Drawing, paper: Paper, sheet: Sequence[Placed]) -> tuple[float, float]:
    """Where the drawing begins, so that it stands in the middle of its room."""
    width, height = _size(drawing, sheet)
    free = paper.room[0] - width, paper.room[1] - height
    return EDGE + INSIDE + max(0.0, free[0]) / 2, EDGE + INSIDE + max(0.0, free[1]) / 2


def _size(drawing: _Drawing, sheet: Sequence[Placed]) -> tuple[float, float]:
    """Width and height of what is on a sheet [px]."""
    blocks = [(each, drawing.layouts[each.block]) for each in sheet]
    width = max((at.x + block.width for at, block in blocks), default=0.0)
    return width, max((at.y + block.height for at, block in blocks), default=0.0)


def _description(
    findings: Findings, drawing: _Drawing, sheet: Sequence[Placed], condition: str
) -> str:
    """What a reader who cannot see the sheet is told of it."""
    bars = (bar for placed in sheet for bar in drawing.layouts[placed.block].piece.bars)
    names = ", ".join(dict.fromkeys(clean(bar.partition("\0")[0]) for bar in bars))
    marked = [clean(each.subject) for each in findings.findings if each.verdict == "fail"]
    fails = ", ".join(dict.fromkeys(marked)) or "none"
    return (
        f"Condition {clean(condition)}. Sources above, busbars as bars, loads below. "
        f"On this sheet: {names}. Marked as failing, on all sheets: {fails}."
    )
