"""The shapes of the symbols, of the kind of IEC 60617, as elements of a drawing library.

The only module that knows schemdraw. Its elements give the shapes; where the library has none of
this kind, it is built here of the library's segments. Shapes run downwards from (0, 0).
"""

from __future__ import annotations

import math
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import lru_cache
from typing import Any

from coordination.diagram.ink import SYMBOL, Disc, Mark, Stroke

#: One unit of the library [px].
UNIT = 24.0


@contextmanager
def _without_matplotlib() -> Iterator[None]:
    """The library would load matplotlib, a second's work, if only it is installed."""
    hidden = "matplotlib" not in sys.modules
    if hidden:
        sys.modules["matplotlib"] = None  # type: ignore[assignment]
    try:
        yield
    finally:
        if hidden:
            del sys.modules["matplotlib"]


with _without_matplotlib():
    from schemdraw import elements
    from schemdraw.segments import Segment, SegmentCircle, SegmentPoly


def _contact(closed: bool) -> list[Any]:
    """A contact: fixed above, its blade hinged below."""
    tip = (0.0, 0.0) if closed else (0.1, 0.5)
    return [Segment([(1.0, 0.0), tip]), SegmentCircle((1.0, 0.0), 0.06, fill="ink")]


def _switch(closed: bool, remote: bool = False) -> list[Any]:
    """A switch-disconnector: the bar and the ring at its fixed contact."""
    ring = [] if closed else [SegmentCircle((0.0, 0.0), 0.09, fill="paper")]
    own = [*_contact(closed), Segment([(-0.08, -0.24), (-0.08, 0.24)]), *ring]
    if closed:
        own.append(SegmentCircle((0.07, 0.0), 0.1))
    if remote:
        own += [
            Segment([(0.5, 0.0 if closed else 0.25), (0.5, 0.32)]),
            SegmentPoly([(0.36, 0.32), (0.36, 0.54), (0.7, 0.54), (0.7, 0.32)]),
            Segment([(0.36, 0.54), (0.7, 0.32)]),
        ]
    return own


def _breaker(closed: bool) -> list[Any]:
    """A circuit-breaker: a cross at its fixed contact."""
    cross = [Segment([(-0.15, -0.15), (0.15, 0.15)]), Segment([(-0.15, 0.15), (0.15, -0.15)])]
    return [*_contact(closed), *cross]


def _channel(closed: bool) -> list[Any]:
    """An electronic output: a contact in a case, with the sign of a semiconductor."""
    case = [(-0.2, -0.62), (-0.2, 0.5), (1.2, 0.5), (1.2, -0.62)]
    diode = [(0.3, -0.5), (0.3, -0.2), (0.62, -0.35)]
    own = [SegmentPoly(case), SegmentPoly(diode), Segment([(0.62, -0.5), (0.62, -0.2)])]
    leads = [Segment([(-0.2, 0.0), (0.0, 0.0)]), Segment([(1.0, 0.0), (1.2, 0.0)])]
    return [*leads, *own, *_contact(closed)]


def _cable() -> list[Any]:
    """Two strokes across its line: two conductors, drawn as one."""
    return [
        Segment([(0.55, -0.2), (0.3, 0.2)]),
        Segment([(0.7, -0.2), (0.45, 0.2)]),
    ]


def _joint() -> list[Any]:
    lead = [Segment([(0.0, 0.0), (0.34, 0.0)]), Segment([(0.66, 0.0), (1.0, 0.0)])]
    return [*lead, SegmentCircle((0.5, 0.0), 0.16), Segment([(0.72, -0.26), (0.28, 0.26)])]


def _limited() -> list[Any]:
    """A source of current: a ring with a bar across the line."""
    return [SegmentCircle((0.5, 0.0), 0.5), Segment([(0.5, -0.5), (0.5, 0.5)])]


def _converter() -> list[Any]:
    """Direct current to direct current."""
    case = [(-0.1, -0.6), (-0.1, 0.6), (1.1, 0.6), (1.1, -0.6)]
    signs = [
        Segment([(across, start), (across, start + 0.4)])
        for across, start in ((0.1, 0.1), (0.24, 0.1), (0.76, -0.5), (0.9, -0.5))
    ]
    return [SegmentPoly(case), Segment([(-0.1, -0.6), (1.1, 0.6)]), *signs]


def _battery() -> list[Any]:
    library: Any = elements
    return list(library.Battery().segments)


def _fuse() -> list[Any]:
    library: Any = elements
    return list(library.FuseIEC().segments)


_MAKERS: dict[str, Callable[[], list[Any]]] = {
    "fuse": _fuse,
    "breaker": lambda: _breaker(True),
    "breaker open": lambda: _breaker(False),
    "disconnect": lambda: _switch(True),
    "disconnect open": lambda: _switch(False),
    "remote disconnect": lambda: _switch(True, remote=True),
    "remote disconnect open": lambda: _switch(False, remote=True),
    "channel": lambda: _channel(True),
    "channel open": lambda: _channel(False),
    "cable": _cable,
    "joint": _joint,
    "battery": _battery,
    "limited": _limited,
    "converter": _converter,
}
NAMES = tuple(_MAKERS)


@lru_cache(maxsize=64)
def symbol(name: str) -> tuple[Mark, ...]:
    """The marks of a symbol, from (0, 0) down to (0, `symbol_height`). Raises KeyError."""
    segments = _MAKERS[name]()
    return tuple(mark for segment in segments for mark in _marks(segment, _wide(name)))


@lru_cache(maxsize=64)
def symbol_height(name: str) -> float:
    """How far down the symbol's lower end lies from its upper [px]. Raises KeyError."""
    if name in ("battery",):
        return 0.5625 * UNIT
    return UNIT if name in _MAKERS else _missing(name)


def _missing(name: str) -> float:
    raise KeyError(name)


def _wide(name: str) -> float:
    """The library's fuse is as high as wide; on a one-line diagram it is slimmer."""
    return 0.8 if name == "fuse" else 1.0


def _marks(segment: Any, wide: float) -> Iterator[Mark]:
    if isinstance(segment, SegmentCircle):
        x, y = segment.center
        filled = segment.fill in ("ink", True)
        style = "paper" if segment.fill == "paper" else SYMBOL
        yield Disc(-y * UNIT * wide, x * UNIT, segment.radius * UNIT, style, filled)
    elif isinstance(segment, SegmentPoly):
        yield Stroke(tuple(_placed(each, wide) for each in segment.verts), closed=True)
    else:
        for run in _runs(segment.path):
            if len(run) > 1:
                yield Stroke(tuple(_placed(each, wide) for each in run))


def _placed(point: Any, wide: float) -> tuple[float, float]:
    """The library draws to the right and up; this is turned downwards."""
    return (round(-point[1] * UNIT * wide, 3) + 0.0, round(point[0] * UNIT, 3) + 0.0)


def _runs(path: Any) -> Iterator[list[Any]]:
    """A path in pieces: the library marks gaps in it by points that are no numbers."""
    run: list[Any] = []
    for point in path:
        if math.isnan(point[0]):
            yield run
            run = []
        else:
            run.append(point)
    yield run
