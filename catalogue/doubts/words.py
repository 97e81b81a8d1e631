"""A rating against the part's description: "300 A" there, 30 A or 300 mA in its field."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, Final

from catalogue.doubts.doubt import Doubt
from catalogue.quantities import show

_FIELDS: Final = (("rated_current", "A"), ("capacity", "A·s"))
_FIGURE: Final = re.compile(r"(?<![\w.,/])(\d+(?:\.\d+)?) ?(kA|mA|A|Ah)(?![\w/²])")
_SIZES: Final = {"A": 1.0, "kA": 1e3, "mA": 1e-3, "Ah": 3600.0}
#: By what a slip of a digit or of a prefix is off.
_SLIPS: Final = (10.0, 100.0, 1000.0)


def word_doubts(part: Any) -> Iterator[Doubt]:
    """Ratings that are exactly 10, 100 or 1000 times what the part's description says, or less."""
    text = part.description
    if not text or not any(sign.isdigit() for sign in text):
        return
    figures = _FIGURE.findall(text[:500])
    for path, unit in _FIELDS:
        value = getattr(part, path, None)
        said = [
            float(number) * _SIZES[written]
            for number, written in figures
            if (written == "Ah") == (unit == "A·s")
        ]
        if value is None or not said or any(_same(value, each) for each in said):
            continue
        for each in said:
            if any(_same(value, each * slip) or _same(value * slip, each) for slip in _SLIPS):
                found = f"{show(value, unit)}, where its description says {show(each, unit)}"
                yield Doubt(part.id, path, found, show(each, unit), "its own description")
                break


def _same(one: float, other: float) -> bool:
    return abs(one - other) <= 1e-9 * max(one, other)
