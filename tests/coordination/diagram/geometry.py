"""What a draughtsman would look for on a sheet: words over words, lines through words and bars."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from coordination.diagram.drawn import Page
from coordination.diagram.ink import Box, Group, Mark, Stroke, bounds, words_of

VERDICTS = ("fail", "unproven", "waived")
LINES = ("live", "fed", "wire")


def strokes_of(marks: Iterable[Mark]) -> Iterator[Stroke]:
    for mark in marks:
        if isinstance(mark, Stroke):
            yield mark
        elif isinstance(mark, Group):
            yield from strokes_of(mark.marks)


def segments(stroke: Stroke) -> Iterator[Box]:
    ends = [*stroke.points, *(stroke.points[:1] if stroke.closed else ())]
    for (x1, y1), (x2, y2) in pairwise(ends):
        yield Box(min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2))


def over_each_other(page: Page) -> list[tuple[str, str]]:
    """Pairs of lines of text that cover each other."""
    words = [each for each in words_of(page.marks) if each.style not in ("on fail", *VERDICTS)]
    words.sort(key=lambda each: each.box.top)
    found = []
    for place, one in enumerate(words):
        for other in words[place + 1 :]:
            if other.box.top >= one.box.bottom:
                break
            if one.box.overlaps(other.box, -0.05):
                found.append((one.text, other.text))
    return found


def struck_through(page: Page) -> list[tuple[str, str]]:
    """Lines of text that a line, a symbol or a verdict's mark runs through."""
    words = [each for each in words_of(page.marks) if each.style not in ("on fail", *VERDICTS)]
    inner = [(each.text, _inside(each.box)) for each in words]
    found = []
    for stroke in strokes_of(page.marks):
        whole = bounds([stroke])
        boxes = [whole] if stroke.style in VERDICTS else list(segments(stroke))
        for text, box in inner:
            if _touch(whole, box) and any(_touch(each, box) for each in boxes):
                found.append((text, stroke.style))
    return found


def _inside(box: Box) -> Box:
    """Where the letters are, without the room above and below them."""
    return Box(box.left + 0.3, box.top + 1.0, box.right - 0.3, box.bottom - 1.0)


def _touch(one: Box, other: Box) -> bool:
    return (
        one.left <= other.right
        and other.left <= one.right
        and one.top <= other.bottom
        and other.top <= one.bottom
    )


def through_bars(page: Page) -> int:
    """How many lines run through a bar, or through a box, instead of ending at it."""
    strokes = list(strokes_of(page.marks[1:]))
    bars = [bounds([each]) for each in strokes if each.closed and _is_bar(bounds([each]))]
    lines = [bounds([each]) for each in strokes if each.style in LINES and not each.closed]
    return sum(
        bar.left < line.left < bar.right
        and line.top < bar.top - 0.5
        and line.bottom > bar.bottom + 0.5
        for bar in bars
        for line in lines
    )  # fmt: skip


def _is_bar(box: Box) -> bool:
    return box.right - box.left > 20.0


def crossing_lines(page: Page) -> int:
    """How many bars lie over each other."""
    strokes = [each for each in strokes_of(page.marks[1:]) if each.closed]
    bars = [bounds([each]) for each in strokes if each.style in ("bar", "live", "fed")]
    return sum(
        one.overlaps(other) for place, one in enumerate(bars) for other in bars[place + 1 :]
    )


def outside(page: Page) -> list[str]:
    """Words beyond the frame."""
    frame = bounds(page.marks[:1])
    return [
        each.text
        for each in words_of(page.marks)
        if not (
            frame.left <= each.box.left
            and each.box.right <= frame.right
            and frame.top <= each.box.top
            and each.box.bottom <= frame.bottom
        )
    ]


def data(page: Page, kind: str) -> list[str]:
    """The elements, or the points, that are on a sheet."""

    def walk(marks: Iterable[Mark]) -> Iterator[str]:
        for mark in marks:
            if isinstance(mark, Group):
                yield from (value for name, value in mark.data if name == kind)
                yield from walk(mark.marks)

    return list(walk(page.marks))
