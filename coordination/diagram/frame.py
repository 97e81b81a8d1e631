"""The frame of a sheet, with the title block and what the signs mean."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from coordination.diagram.cells import PITCH
from coordination.diagram.ink import (
    FAIL,
    FED,
    FRAME,
    LIVE,
    UNPROVEN,
    WAIVED,
    WIRE,
    Mark,
    Stroke,
    Words,
    bounds,
    moved,
)
from coordination.diagram.marking import verdict_marks
from coordination.diagram.metrics import text_width, wrapped
from coordination.diagram.signs import Signs
from coordination.diagram.symbols import symbol
from coordination.languages.language import Language, plain
from coordination.report.limits import CAUTIONS

#: From the sheet's edge to the frame, from there to the drawing [px].
EDGE, INSIDE = 16.0, 14.0
#: The cautions that stand on every sheet: what the verdicts hold for, and who decides.
_SAID = CAUTIONS[:2]
#: Width and least height of the title block [px].
TITLE_WIDTH, _TITLE_HEIGHT = 300.0, 96.0
_SMALL, _TEXT_WIDTH = 8.5, TITLE_WIDTH - 80.0


class Title(NamedTuple):
    """What the strip says.

    rows -- label and text of the title block; signs -- what is explained beside it
    """

    rows: tuple[tuple[str, str], ...]
    signs: Signs


def frame_marks(width: float, height: float, title: Title) -> Iterator[Mark]:
    """The frame with the strip below the drawing, on a sheet of that size [px]."""
    left, top = EDGE, EDGE
    right, bottom = width - EDGE, height - EDGE
    line, split = bottom - strip_height(width, title.signs), right - TITLE_WIDTH
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    yield Stroke(corners, FRAME, closed=True)
    yield Stroke(((left, line), (right, line)), FRAME)
    yield Stroke(((split, line), (split, bottom)), FRAME)
    yield from _title(title, split, line)
    yield from _legend(left + 14.0, line, _legend_width(width), title.signs)


@lru_cache(maxsize=64)
def strip_height(width: float, signs: Signs) -> float:
    """How high the strip is on a sheet of a width [px] that explains these signs."""
    legend = bounds(_legend(0.0, 0.0, _legend_width(width), signs)).bottom
    return max(_TITLE_HEIGHT, legend + 7.0)


def _legend_width(width: float) -> float:
    return width - 2 * EDGE - TITLE_WIDTH - 28.0


def _title(title: Title, left: float, top: float) -> Iterator[Mark]:
    y = top + 4.0
    for label, text in title.rows:
        said = plain(title.signs.words.say(label))
        yield Words(left + 8.0, y + 9.4, said, _SMALL, style="circuit")
        text = _ending(text) if label == "File" else text
        for row in wrapped(text, 9.5, _TEXT_WIDTH, bold=True, most=2):
            yield Words(left + 70.0, y + 9.4, row, 9.5, bold=True)
            y += PITCH + 1.0


def _ending(path: str) -> str:
    """The end of a path, which tells more than its beginning."""
    cut = path
    while text_width(f"…{cut}", 9.5, bold=True) > _TEXT_WIDTH and len(cut) > 1:
        cut = cut[1:]
    return path if cut == path else f"…{cut}"


#: Symbols and what they mean.
_SYMBOLS = (
    ("fuse", "fuse"), ("breaker", "circuit-breaker"), ("breaker open", "circuit-breaker, open"),
    ("disconnect", "switch, closed"), ("disconnect open", "switch, open"),
    ("remote disconnect", "remote switch, closed"),
    ("remote disconnect open", "remote switch, open"), ("channel", "electronic output"),
    ("channel open", "electronic output, open"), ("cable", "cable, both conductors"),
    ("joint", "joint"), ("battery", "battery"), ("limited", "source that limits its current"),
    ("converter", "DC-DC converter"),
)  # fmt: skip
_LINES = (
    (LIVE, "double: live with every switch open that a person works"),
    (FED, "dashed: live then by a charger or converter only"),
    (WIRE, "single: behind a switch"),
)
_VERDICTS = ((FAIL, "fails"), (UNPROVEN, "unproven"), (WAIVED, "waived"))
CURRENTS = "14.4 / 7.9 kA: prospective fault current there, largest / least"
#: Height of a row of symbols and of a row of other signs; between two signs [px].
_ROW, _LOW, _APART = 34.0, 17.0, 16.0


def _legend(left: float, top: float, width: float, signs: Signs) -> Iterator[Mark]:
    """Symbols, then lines and marks, then the cautions, each row filled as far as it goes."""
    x, y = left, top + 7.0
    for name, english in _SYMBOLS:
        if name not in signs.shapes:
            continue
        words = plain(signs.words.say(english))
        need = 34.0 + text_width(words, _SMALL) + _APART
        if x + need > left + width:
            x, y = left, y + _ROW
        yield from _symbol(name, x, y, words)
        x += need
    x, y = left, y + _ROW + 1.0
    for sign, english in _signs():
        words = plain(signs.words.say(english))
        need = sign.right + 6.0 + text_width(words, _SMALL) + _APART
        if x + need > left + width:
            x, y = left, y + _LOW
        yield from (moved(mark, x, y) for mark in sign.marks)
        yield Words(x + sign.right + 6.0, y + 11.0, words, _SMALL)
        x += need
    yield from _cautions(left, y + _LOW + 2.0, width, signs.words)


class _Sign(NamedTuple):
    marks: tuple[Mark, ...]
    right: float


def _signs() -> Iterator[tuple[_Sign, str]]:
    for style, words in _LINES:
        sides = (-1.6, 1.6) if style == LIVE else (0.0,)
        lines = (Stroke(((0.0, 8.0 + side), (22.0, 8.0 + side)), style) for side in sides)
        yield _Sign(tuple(lines), 22.0), words
    for name, words in _VERDICTS:
        yield _Sign(verdict_marks(name, 8.0, 8.0), 16.0), words
    yield _Sign((), -6.0), CURRENTS


def _symbol(name: str, x: float, y: float, words: str) -> Iterator[Mark]:
    for mark in symbol(name):
        yield moved(mark, x + 14.0, y)
    yield Words(x + 34.0, y + 15.0, words, _SMALL)


def _cautions(left: float, top: float, width: float, words: Language) -> Iterator[Mark]:
    y = top
    for said in _SAID:
        for row in wrapped(plain(words.say(said)), _SMALL, width):
            yield Words(left, y + 8.0, row, _SMALL)
            y += 11.0
