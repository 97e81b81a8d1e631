"""Sizes of paper, and what of a sheet is left for the drawing."""

from __future__ import annotations

from typing import NamedTuple

from coordination.diagram.frame import EDGE, INSIDE, strip_height
from coordination.diagram.signs import Signs

#: CSS px in a millimetre.
MILLIMETRE = 96 / 25.4
#: Narrowest sheet that the title strip can be read on [px].
_NARROWEST = 900.0


class Paper(NamedTuple):
    """A sheet of paper [px]."""

    width: float
    height: float

    def room(self, signs: Signs) -> tuple[float, float]:
        """Width and height left for the drawing [px] beside what explains these symbols."""
        across = 2 * (EDGE + INSIDE)
        return self.width - across, self.height - across - strip_height(self.width, signs)


A4 = Paper(297 * MILLIMETRE, 210 * MILLIMETRE)
A3 = Paper(420 * MILLIMETRE, 297 * MILLIMETRE)
#: What is a little too large for A3 is drawn whole and printed smaller rather than cut.
SNUG = Paper(A3.width * 1.12, A3.height * 1.12)


def grown(paper: Paper, width: float, height: float, signs: Signs) -> Paper:
    """The paper, or one of its own size that has at least so much room: nothing is cut off."""
    room = paper.room(signs)
    more_width, more_height = width - room[0], height - room[1]
    if more_width <= 0 and more_height <= 0:
        return paper
    return Paper(paper.width + max(0.0, more_width), paper.height + max(0.0, more_height))


def trimmed(width: float, height: float, signs: Signs) -> Paper:
    """Paper for a drawing of that width and height, no larger than it must be."""
    across = 2 * (EDGE + INSIDE)
    wide = max(_NARROWEST, width + across)
    return Paper(wide, height + across + strip_height(wide, signs))
