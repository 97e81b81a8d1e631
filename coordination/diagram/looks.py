"""How each style of mark looks, whatever kind of file it is drawn in.

What a colour says, a line's kind or a shape says too.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple


class Look(NamedTuple):
    """A style.

    colour -- as in SVG; "" is the colour of text. Each can be told from white and from black
    width  -- of a line [px]; dashes -- their lengths and gaps [px], if it is dashed
    """

    colour: str
    width: float
    dashes: tuple[float, ...] = ()


#: By the names of `ink`.
LOOKS: Mapping[str, Look] = {
    "live": Look("#c2571a", 1.3),
    "fed": Look("#c2571a", 1.5, (9.0, 3.0)),
    "wire": Look("", 1.5),
    "symbol": Look("", 1.3),
    "bar": Look("", 1.0),
    "frame": Look("", 1.0),
    "fail": Look("#d93025", 1.4),
    "unproven": Look("#8f6f00", 1.8),
    "waived": Look("#3d74c7", 1.8),
    "paper": Look("", 1.2),
}
#: Styles of text that differ from the colour of text.
TEXT_COLOURS: Mapping[str, str] = {
    "on fail": "#ffffff",
    "unproven": LOOKS["unproven"].colour,
    "waived": LOOKS["waived"].colour,
}
#: How strong the names of circuits are, which stand back [1].
FAINT: Mapping[str, float] = {"circuit": 0.8}
