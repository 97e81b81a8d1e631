"""What stands on a sheet before it is written as a file: strokes, discs, words, and their groups.

Lengths in CSS px (1/96 in), x to the right, y downwards. Knows no file format and no system.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from coordination.diagram.metrics import text_width

#: What a mark means for its looks; `styles` of each file format say how it is drawn.
LIVE, FED, WIRE, SYMBOL, BAR, FRAME = "live", "fed", "wire", "symbol", "bar", "frame"
FAIL, UNPROVEN, WAIVED = "fail", "unproven", "waived"


class Box(NamedTuple):
    """A rectangle."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: Box, gap: float = 0.0) -> bool:
        """Whether both have more than a rim in common; `gap`: or come nearer than that."""
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.bottom + gap
            and other.top < self.bottom + gap
        )

    def around(self, other: Box) -> Box:
        """The least rectangle about both."""
        return Box(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )


class Stroke(NamedTuple):
    """A line through points; closed: an outline; filled: with what is inside."""

    points: tuple[tuple[float, float], ...]
    style: str = SYMBOL
    closed: bool = False
    filled: bool = False


class Disc(NamedTuple):
    """A circle."""

    x: float
    y: float
    radius: float
    style: str = SYMBOL
    filled: bool = False


class Words(NamedTuple):
    """A line of text; `y` is its base line, `anchor` "start", "middle" or "end"."""

    x: float
    y: float
    text: str
    size: float = 10.0
    bold: bool = False
    italic: bool = False
    anchor: str = "start"
    style: str = "text"

    @property
    def box(self) -> Box:
        """What it covers at most, in any of the usual typefaces."""
        width = text_width(self.text, self.size, bold=self.bold)
        left = self.x - {"start": 0.0, "middle": width / 2, "end": width}[self.anchor]
        return Box(left, self.y - 0.78 * self.size, left + width, self.y + 0.22 * self.size)


class Group(NamedTuple):
    """Marks that belong together.

    ids    -- its name in the document, if it has one; href -- where it leads
    title  -- what a pointer or a reading machine is told about it
    data   -- ("element", "port feed/1"): what it stands for
    """

    marks: tuple[Mark, ...]
    ids: str = ""
    href: str = ""
    title: str = ""
    data: tuple[tuple[str, str], ...] = ()


Mark = Stroke | Disc | Words | Group


def moved(mark: Mark, right: float, down: float) -> Mark:
    """The mark elsewhere."""
    if isinstance(mark, Stroke):
        return mark._replace(points=tuple((x + right, y + down) for x, y in mark.points))
    if isinstance(mark, Group):
        return mark._replace(marks=tuple(moved(each, right, down) for each in mark.marks))
    return mark._replace(x=mark.x + right, y=mark.y + down)


def words_of(marks: Iterable[Mark]) -> Iterator[Words]:
    """Every line of text, in groups too."""
    for mark in marks:
        if isinstance(mark, Words):
            yield mark
        elif isinstance(mark, Group):
            yield from words_of(mark.marks)


def bounds(marks: Iterable[Mark]) -> Box:
    """The least rectangle about all marks. Raises ValueError if there are none."""
    boxes = [box for mark in marks for box in _boxes(mark)]
    return Box(
        min(box.left for box in boxes),
        min(box.top for box in boxes),
        max(box.right for box in boxes),
        max(box.bottom for box in boxes),
    )


def _boxes(mark: Mark) -> Iterator[Box]:
    if isinstance(mark, Stroke):
        across, down = zip(*mark.points, strict=True)
        yield Box(min(across), min(down), max(across), max(down))
    elif isinstance(mark, Disc):
        yield Box(
            mark.x - mark.radius, mark.y - mark.radius, mark.x + mark.radius, mark.y + mark.radius
        )
    elif isinstance(mark, Words):
        yield mark.box
    else:
        for each in mark.marks:
            yield from _boxes(each)
