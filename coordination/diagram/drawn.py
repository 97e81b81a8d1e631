"""From findings to the sheets of a one-line diagram as marks, for any kind of file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

from coordination.diagram.block import Layout, draw, lay_out
from coordination.diagram.build import Builder, Piece
from coordination.diagram.cells import Maker
from coordination.diagram.frame import EDGE, INSIDE, Title, frame_marks
from coordination.diagram.graph import graph_of
from coordination.diagram.ink import FAIL, Group, Mark, moved
from coordination.diagram.marking import verdicts
from coordination.diagram.packing import Placed, packed
from coordination.diagram.paper import A3, A4, SNUG, Paper, grown, trimmed
from coordination.diagram.pieces import Cutter
from coordination.diagram.plan import Plan, plan_of
from coordination.languages.language import ENGLISH, Language, plain
from coordination.report.wording import clean
from coordination.study.always_live import live_points

if TYPE_CHECKING:
    from coordination.rules.finding import Findings

#: The condition whose switch positions and currents are drawn, where none is asked for.
NORMAL = "normal"


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
    links: bool = False, whole_paper: bool = False, words: Language = ENGLISH,
) -> tuple[Page, ...]:  # fmt: skip
    """The sheets, as `one_line` describes them. Raises KeyError: the condition was not studied.

    whole_paper -- as large as the paper they are laid out for, not as small as they can be
    """
    studies = findings.studies
    name = condition or (NORMAL if NORMAL in studies else next(iter(studies)))
    maker = Maker(studies[name], verdicts(findings.findings, words), links=links, words=words)
    rows = (
        ("System", clean(findings.system.name)),
        ("File", clean(findings.file)),
        ("Condition", clean(name)),
        ("Date", when.isoformat()),
    )
    return drawn_pages(maker, rows, whole_paper=whole_paper)


def drawn_pages(
    maker: Maker, rows: tuple[tuple[str, str], ...], *, whole_paper: bool = False
) -> tuple[Page, ...]:
    """The sheets of a study with the verdicts on it; `rows` stand in the title block."""
    drawing = _Drawing(maker)
    paper, sheets = drawing.laid_out()
    sizes = [_size(drawing, sheet) for sheet in sheets]
    widest = max((width for width, _ in sizes), default=0.0)
    papers = [paper if whole_paper else trimmed(widest, height, maker.signs) for _, height in sizes]
    return tuple(
        _page(drawing, papers[number - 1], sheets, number, rows)
        for number in range(1, len(sheets) + 1)
    )


class _Drawing:
    """A system's pieces, laid out twice: to see which fit on a sheet, then with sheet numbers."""

    def __init__(self, maker: Maker) -> None:
        study = maker.study
        self.maker = maker
        self.live = live_points(study.system)
        closed = frozenset(e.name for e in study.system.elements() if study.closed(e))
        self._plan = plan_of(graph_of(study.system), closed)
        self._sheet_of: Mapping[str, int] = {}
        self._laid: dict[Piece, tuple[Plan, Layout]] = {}
        self.layouts: tuple[Layout, ...] = ()

    def laid_out(self) -> tuple[Paper, Sequence[Sequence[Placed]]]:
        """The paper and what is where on each sheet: one sheet if it fits on one."""
        cutter = Cutter(self._plan, self._room(A3), self._lay)
        for paper in (A4, A3, SNUG) if cutter.few() else ():
            sheets = self._on(paper, cutter.whole())
            if len(sheets) == 1 and self._fits(paper):
                return paper, self._numbered(sheets)
        pieces = cutter.pieces()
        self._plan = cutter.plan
        sheets = self._on(A3, pieces)
        paper = A3
        for each in self.layouts:
            paper = grown(paper, each.width, each.height, self.maker.signs)
        return paper, self._numbered(sheets)

    def _numbered(self, sheets: Sequence[Sequence[Placed]]) -> Sequence[Sequence[Placed]]:
        """The same sheets, now that flags can tell which sheet they lead to."""
        self._sheet_of = {
            bar: number
            for number, sheet in enumerate(sheets, 1)
            for placed in sheet
            for bar in self.layouts[placed.block].piece.bars
        }
        if sheets[1:]:
            self._laid.clear()
            self.layouts = tuple(self._lay(self._plan, each.piece) for each in self.layouts)
        return sheets

    def _on(self, paper: Paper, pieces: Sequence[Piece]) -> Sequence[Sequence[Placed]]:
        self.layouts = tuple(self._lay(self._plan, piece) for piece in pieces)
        return packed(self.layouts, self._room(paper))

    def _fits(self, paper: Paper) -> bool:
        width, height = self._room(paper)
        return all(each.width <= width and each.height <= height for each in self.layouts)

    def _lay(self, plan: Plan, piece: Piece) -> Layout:
        kept = self._laid.get(piece)
        if kept is None or kept[0] is not plan:
            kept = (plan, lay_out(Builder(plan, self.maker, self._number), piece))
            self._laid[piece] = kept
        return kept[1]

    def _room(self, paper: Paper) -> tuple[float, float]:
        return paper.room(self.maker.signs)

    def _number(self, bar: str) -> int | None:
        return self._sheet_of.get(bar)


def _page(
    drawing: _Drawing, paper: Paper, sheets: Sequence[Sequence[Placed]], number: int,
    rows: tuple[tuple[str, str], ...],
) -> Page:  # fmt: skip
    left, top = _origin(drawing, paper, sheets[number - 1])
    marks: list[Mark] = []
    for placed in sheets[number - 1]:
        for mark in draw(drawing.layouts[placed.block], drawing.maker, drawing.live):
            marks.append(moved(mark, left + placed.x, top + placed.y))
    words, name = drawing.maker.words, clean(drawing.maker.study.system.name)
    count = {"number": number, "count": len(sheets)}
    whole = (*rows, ("Sheet", words.put("{number} of {count}", **count)))
    title = words.put("One-line diagram of {system}", system=name)
    if sheets[1:]:
        title += words.put(", sheet {number} of {count}", **count)
    frame = frame_marks(paper.width, paper.height, Title(whole, drawing.maker.signs))
    description = _description(drawing, sheets[number - 1])
    scale = A3.width / SNUG.width if paper == SNUG else 1.0
    marks.insert(0, Group(tuple(frame)))
    return Page(plain(title), description, tuple(marks), paper.width, paper.height, scale)


def _origin(drawing: _Drawing, paper: Paper, sheet: Sequence[Placed]) -> tuple[float, float]:
    """Where the drawing begins, so that it stands in the middle of its room."""
    width, height = _size(drawing, sheet)
    room = paper.room(drawing.maker.signs)
    free = room[0] - width, room[1] - height
    return EDGE + INSIDE + max(0.0, free[0]) / 2, EDGE + INSIDE + max(0.0, free[1]) / 2


def _size(drawing: _Drawing, sheet: Sequence[Placed]) -> tuple[float, float]:
    """Width and height of what is on a sheet [px]."""
    blocks = [(each, drawing.layouts[each.block]) for each in sheet]
    width = max((at.x + block.width for at, block in blocks), default=0.0)
    return width, max((at.y + block.height for at, block in blocks), default=0.0)


def _description(drawing: _Drawing, sheet: Sequence[Placed]) -> str:
    """What a reader who cannot see the sheet is told of it."""
    words = drawing.maker.words
    bars = (bar for placed in sheet for bar in drawing.layouts[placed.block].piece.bars)
    names = ", ".join(dict.fromkeys(clean(bar.partition("\0")[0]) for bar in bars))
    marked = drawing.maker.marked.items()
    failing = [clean(name) for name, verdict in marked if verdict.name == FAIL]
    fails = ", ".join(failing) or words.say("none")
    condition = clean(drawing.maker.study.condition.name)
    return plain(words.put(_TOLD, condition=condition, names=names, fails=fails))


_TOLD = (
    "Condition {condition}. Sources above, busbars as bars, loads below. "
    "On this sheet: {names}. Marked as failing, on all sheets: {fails}."
)
