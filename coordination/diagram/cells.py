"""The pieces that a lane is stacked of: a symbol or a point with its words beside it.

A cell knows its height and how far it reaches to either side of its line, and draws itself.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import cached_property
from typing import Any, NamedTuple

from coordination.diagram.facts import CONTACTS, Line, current_line, link_lines, thing_lines
from coordination.diagram.ink import SYMBOL, Disc, Group, Mark, Stroke, Words, moved
from coordination.diagram.marking import Verdict, verdict_marks
from coordination.diagram.metrics import text_width, wrapped
from coordination.diagram.signs import Signs
from coordination.diagram.symbols import symbol, symbol_height
from coordination.languages.language import ENGLISH, Language, plain
from coordination.model import Converter, Element, Equipment, Source
from coordination.report.anchors import DEVICE, FINDING, POINT, anchor
from coordination.report.wording import clean

#: Widest text beside a symbol; from the line to its text; to a verdict's mark; line pitch [px].
TEXT_WIDTH, TEXT_LEFT, MARK_LEFT, PITCH = 108.0, 19.0, -23.0, 12.0
#: What a lane always needs to the left of its line [px].
LEFT = 32.0
SIZES = {"name": 10.0, "fact": 9.5, "current": 9.5, "circuit": 9.0}


class Row(NamedTuple):
    """A line of text that fits; weight as in `facts.Line`, or "circuit"."""

    text: str
    weight: str

    @property
    def width(self) -> float:
        """At most [px]."""
        return text_width(self.text, SIZES[self.weight], bold=self.weight == "name")

    def at(self, x: float, y: float) -> Words:
        """This line of text with its top at `y`."""
        size = SIZES[self.weight]
        style = "circuit" if self.weight == "circuit" else "text"
        return Words(
            x, y + 9.4, self.text, size,
            bold=self.weight == "name", italic=self.weight == "current", style=style,
        )  # fmt: skip


class Cell(NamedTuple):
    """A symbol, point or box of a lane.

    kind   -- "link", "point", "circuit", "source", "equipment", "flag down", "flag up", "dot"
    subject -- whom verdicts are about; point -- whose currents are written here
    shape  -- name of its symbol, if it has one
    verdict -- the gravest on it; target -- of a flag: the place where the line goes on
    """

    kind: str
    rows: tuple[Row, ...]
    subject: str = ""
    point: str = ""
    shape: str = ""
    verdict: Verdict | None = None
    title: str = ""
    target: str = ""

    @property
    def height(self) -> float:
        """From its top to its bottom [px]."""
        text = PITCH * len(self.rows)
        if self.shape:
            least = 28.0 if self.shape == "cable" else symbol_height(self.shape) + 12.0
            return max(least, text + 5.0)
        return text + {"equipment": 12.0, "flag down": 18.0, "flag up": 18.0}.get(self.kind, 2.0)

    @property
    def right(self) -> float:
        """How far it reaches to the right of the line [px]."""
        width = max((row.width for row in self.rows), default=0.0)
        return TEXT_LEFT + width + (8.0 if self.kind in _BOXED else 2.0)


#: Lines of these weights are names out of the file.
_NAMED = ("name", "circuit")
_BOXED = ("equipment", "flag down", "flag up")


def fitted(lines: Iterable[Line], width: float = TEXT_WIDTH, most: int = 2) -> tuple[Row, ...]:
    """Lines broken into rows of a width [px], each at most `most` of them."""
    return tuple(
        Row(piece, line.weight)
        for line in lines
        for piece in wrapped(
            line.text, SIZES[line.weight], width, bold=line.weight == "name", most=most
        )
    )


class Maker:
    """Makes cells from a study and the verdicts on it."""

    def __init__(
        self,
        study: Any,
        marked: Mapping[str, Verdict],
        *,
        links: bool,
        words: Language = ENGLISH,
    ) -> None:
        self.study, self.marked, self.links, self.words = study, marked, links, words
        self._made: dict[tuple[str, str], Cell] = {}

    @cached_property
    def shapes(self) -> frozenset[str]:
        """The symbols that the system needs."""
        links = (*self.study.system.elements(), *self.study.system.converters.values())
        sources = self.study.system.sources.values()
        kinds = ("limited" if each.part is None else "battery" for each in sources)
        return frozenset((*map(self._shape, links), *kinds))

    @cached_property
    def signs(self) -> Signs:
        """What a sheet of the system explains."""
        return Signs(self.shapes, self.words)

    def said(self, english: str) -> str:
        """A line of facts in the drawing's language."""
        return self.words.figure(plain(self.words.say(english)))

    def put(self, english: str, **put_in: object) -> str:
        """A line with names in it, in the drawing's language."""
        return plain(self.words.put(english, **put_in))

    def fitted(self, lines: Iterable[Line], width: float = TEXT_WIDTH) -> tuple[Row, ...]:
        """Lines in the drawing's language, but for names, broken into rows of a width [px]."""
        told = (each if each.weight in _NAMED else each._replace(text=self.said(each.text))
                for each in lines)  # fmt: skip
        return fitted(told, width)

    def _once(self, kind: str, name: str, make: Callable[[], Cell]) -> Cell:
        """A thing is laid out several times, and written only once."""
        key = (kind, name)
        if key not in self._made:
            self._made[key] = make()
        return self._made[key]

    def link(self, link: Element | Converter) -> Cell:
        """An element or a converter."""
        return self._once("link", link.name, lambda: self._link(link))

    def _link(self, link: Element | Converter) -> Cell:
        rows = self.fitted(link_lines(self.study, link))
        return Cell("link", rows, link.name, shape=self._shape(link), **self._of(link.name))

    def _shape(self, link: Element | Converter) -> str:
        if isinstance(link, Converter):
            return "converter"
        remote = "remote " if getattr(link.part, "remote", None) else ""
        shape = f"{remote}{link.kind}" if link.kind == "disconnect" else link.kind
        return f"{shape} open" if link.kind in CONTACTS and not self.study.closed(link) else shape

    def _of(self, name: str) -> dict[str, Any]:
        verdict = self.marked.get(name)
        title = f"{clean(name)}: {verdict.words}" if verdict else clean(name)
        return {"verdict": verdict, "title": title}

    def point(self, point: str) -> Cell:
        """A junction with its fault currents."""
        return self._once("point", point, lambda: self._point(point))

    def _point(self, point: str) -> Cell:
        rows = self.fitted([current_line(self.study, point)])
        return Cell("point", rows, point=point, title=clean(point))

    def circuit(self, name: str) -> Cell:
        """Where a circuit begins: its name."""
        state = self.study.condition
        out = f" ({self.said('out')})" if name in state.open or name in state.without else ""
        return Cell("circuit", fitted([Line(clean(name) + out, "circuit")]), title=clean(name))

    def source(self, source: Source) -> Cell:
        """A source at the top of a lane."""
        lines = (*thing_lines(self.study, source), current_line(self.study, source.name))
        shape = "limited" if source.part is None else "battery"
        return Cell(
            "source", self.fitted(lines), source.name, source.name, shape, **self._of(source.name)
        )

    def equipment(self, equipment: Equipment) -> Cell:
        """A box at the foot of a lane."""
        lines = (*thing_lines(self.study, equipment), current_line(self.study, equipment.name))
        name, rows = equipment.name, self.fitted(lines)
        return Cell("equipment", rows, name, name, **self._of(name))

    def dot(self, point: str) -> Cell:
        """An end that nothing stands at: its name and its currents."""
        lines = (Line(clean(point), "name"), current_line(self.study, point))
        return Cell("dot", self.fitted(lines), point=point, title=clean(point))

    def flag(self, kind: str, lines: Iterable[str], target: str) -> Cell:
        """Where a line goes on elsewhere."""
        return Cell(kind, fitted(Line(text) for text in lines), target=target)

    def draw(self, cell: Cell, x: float, y: float) -> Group:
        """The cell with its line at `x` and its top at `y`."""
        marks: list[Mark] = [*_words(cell, x, y)]
        marks += _shape_marks(cell, x, y)
        if cell.verdict is not None:
            marks += verdict_marks(cell.verdict.name, x + MARK_LEFT, _middle(cell, y))
        return grouped(cell, tuple(marks), links=self.links)


def grouped(cell: Cell, marks: tuple[Mark, ...], *, links: bool) -> Group:
    """A cell's marks, named so that they can be found, and the point with its currents among them.

    links -- whether it leads to its finding, or a flag to where it goes on
    """
    if cell.point:
        at = tuple(mark for mark in marks if _of_point(cell, mark))
        rest = tuple(mark for mark in marks if not _of_point(cell, mark))
        named = anchor(POINT, cell.point)
        title = "" if cell.title == clean(cell.point) else clean(cell.point)
        marks = (*rest, Group(at, named, title=title, data=(("point", cell.point),)))
    target = anchor(FINDING, cell.subject) if cell.verdict else cell.target
    return Group(
        marks,
        anchor(DEVICE, cell.subject) if cell.subject else "",
        f"#{target}" if links and target else "",
        cell.title,
        (("element", cell.subject),) if cell.subject else (),
    )


def _of_point(cell: Cell, mark: Mark) -> bool:
    """Its currents, and its dot where there is no symbol."""
    return (isinstance(mark, Words) and mark.italic) or cell.kind in ("point", "dot")


def _middle(cell: Cell, y: float) -> float:
    return y + symbol_height(cell.shape) / 2 + 3.0 if cell.shape else y + cell.height / 2


def _words(cell: Cell, x: float, y: float) -> Iterable[Words]:
    top = {"equipment": 6.0, "flag down": 3.0, "flag up": 13.0}.get(cell.kind, 0.0)
    left = -4.0 if cell.kind in _BOXED else TEXT_LEFT
    return [row.at(x + left, y + top + PITCH * place) for place, row in enumerate(cell.rows)]


def _shape_marks(cell: Cell, x: float, y: float) -> Iterable[Mark]:
    if cell.shape:
        return [moved(mark, x, y + 3.0) for mark in symbol(cell.shape)]
    if cell.kind in ("point", "dot"):
        return [Disc(x, y + 6.0, 3.0, SYMBOL, filled=True)]
    left, right = x - 12.0, x + cell.right - TEXT_LEFT
    if cell.kind == "equipment":
        corners = ((left, y), (right, y), (right, y + cell.height), (left, y + cell.height))
        return [Stroke(corners, closed=True)]
    if cell.kind == "flag down":
        low = y + cell.height - 10.0
        return [Stroke(
            ((left, y), (right, y), (right, low), (x, low + 10.0), (left, low)), closed=True
        )]  # fmt: skip
    if cell.kind == "flag up":
        low = y + cell.height
        return [Stroke(
            ((left, low), (right, low), (right, y + 10.0), (x, y), (left, y + 10.0)), closed=True
        )]  # fmt: skip
    return []
