"""From what a part states to what it promises about opening.

Knows of a part only what `OvercurrentPart` below lists; which device it is in, and at which
current it stands, are others' business.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from coordination.curves.boundary import Boundary, Point
from coordination.curves.opening import Opening
from coordination.trace import Unknown


class StatedCurve(Protocol):
    """What a part states of its time-current band."""

    @property
    def earliest(self) -> tuple[Point, ...]:
        """Never opens before: stated, or an average melting curve less its tolerance."""

    @property
    def latest_melting(self) -> tuple[Point, ...]:
        """Melted by then, from an average melting curve."""

    @property
    def slowest(self) -> tuple[Point, ...]:
        """Open by then."""

    @property
    def gates(self) -> bool:
        """Whether the points are a standard's gates."""


class OvercurrentPart(Protocol):
    """What a fuse or a breaker states."""

    @property
    def id(self) -> str:
        """Its name in the catalogue."""

    @property
    def kind(self) -> str:
        """"fuse" or "breaker"."""

    @property
    def curve(self) -> StatedCurve | None:
        """Its band."""

    @property
    def melting_i2t(self) -> float | None:
        """Least I²t that melts it [A²s]."""

    @property
    def clearing_i2t(self) -> float | None:
        """Largest I²t until it has cleared [A²s]."""


def opening_from(
    part: OvercurrentPart, name: str = "", *, let_through: bool = True
) -> Opening | Unknown:
    """What the part promises; Unknown, naming what is missing, if it states nothing of opening.

    name        -- the device it is in, for reasoning; the part's id if empty
    let_through -- whether its clearing I²t holds where it stands: a figure measured on AC counts
                   only within the part's DC marking

    A side that the part does not state is a boundary without points: never an assumption. An
    average melting curve gives the fastest side; the slowest only its max_clear can, because the
    time of the arc is not in a melting curve.
    """
    curve = part.curve
    clearing = part.clearing_i2t if let_through else None
    if curve is None and part.melting_i2t is None and clearing is None:
        return Unknown("opening time", (f"{part.id}: curve",))
    earliest = curve.earliest if curve else ()
    slowest = curve.slowest if curve else ()
    gates, melts = bool(curve and curve.gates), part.kind == "fuse"
    return Opening(
        name=name or part.id,
        fastest=Boundary(earliest, fastest=True, gates=gates, melts=melts),
        slowest=Boundary(slowest, fastest=False, gates=gates, melts=melts),
        melting_i2t=part.melting_i2t,
        clearing_i2t=clearing,
    )


def melted_by(part: OvercurrentPart) -> Boundary | None:
    """The latest melting of a part with an average melting curve, for charts and notes: no
    clearing time, because the arc comes after it. None if the part states no average.
    """
    if part.curve is None or not part.curve.latest_melting:
        return None
    return Boundary(part.curve.latest_melting, fastest=False)


def missing_sides(part: OvercurrentPart) -> Sequence[str]:
    """What a proof would need that the part does not state, as "<id>: <what>"."""
    curve = part.curve
    fuse = part.kind == "fuse"
    found = []
    if not (curve and curve.earliest):
        what = "minimum melting curve" if fuse else "minimum trip curve"
        found.append(f"{part.id}: {what}")
    if not (curve and curve.slowest):
        what = "maximum clearing curve" if fuse else "maximum trip curve"
        found.append(f"{part.id}: {what}")
    if fuse and part.melting_i2t is None:
        found.append(f"{part.id}: melting I²t")
    if fuse and part.clearing_i2t is None:
        found.append(f"{part.id}: clearing I²t")
    return tuple(found)
