"""One sentence for flips that happen at one value of one input."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import TYPE_CHECKING

from coordination.report.wording import clean, number

if TYPE_CHECKING:
    from coordination.margins.inputs import Input
    from coordination.margins.survey import Flip

#: Subjects that are named where one value flips many.
_NAMED = 3
_STANDS = {
    "pass": "passes",
    "note": "is a note",
    "fail": "fails",
    "unproven": "is unproven",
    "": "is not judged",
}
_BECOMES = {
    "pass": "then passes",
    "note": "then is a note",
    "fail": "then fails",
    "unproven": "then is unproven",
    "": "then is not judged",
}
#: Changes whose second half goes without saying.
_PLAIN = (("pass", "fail"), ("fail", "pass"))


def grouped(flips: Iterable[Flip]) -> Iterator[list[Flip]]:
    """Flips that happen alike at one value, together."""

    def same(flip: Flip) -> tuple[str, str, bool, str]:
        return flip.before, flip.after, flip.upward, flip.shown.text

    for _, alike in groupby(flips, key=same):
        yield list(alike)


def flip_sentence(each: Input, flips: list[Flip]) -> str:
    """ "interrupt-rating of main fuse passes until least resistance of ... < 1.35 mΩ (now ...)"."""
    one = flips[0]
    who = "; ".join(_subjects(flips))
    sign = (">" if one.upward else "<") if not one.better else ("≥" if one.upward else "≤")
    now = number(each.now, each.unit, each.written)
    end = "" if (one.before, one.after) in _PLAIN else f", {_BECOMES[one.after]}"
    return (
        f"{who} {_STANDS[one.before]} until {clean(each.what)} {sign} {one.shown.text}"
        f" (now {now}, {_away(each, one)}){end}"
    )


def _subjects(flips: list[Flip]) -> Iterator[str]:
    named = sorted(flips[:_NAMED], key=lambda flip: flip.rule)
    for rule, alike in groupby(named, key=lambda flip: flip.rule):
        yield f"{clean(rule)} of {', '.join(clean(flip.subject) for flip in alike)}"
    if len(flips) > _NAMED:
        yield f"{len(flips) - _NAMED} more"


def _away(each: Input, flip: Flip) -> str:
    """How far off the value is, as a share or in degrees."""
    off = flip.shown.value - each.now
    word = "more" if off > 0 else "less"
    if each.unit == "°C":
        return f"{abs(off):.3g} °C {word}"
    return f"{_percent(abs(off / each.now) * 100)} % {word}"


def _percent(share: float) -> str:
    """Two digits, and no power of ten."""
    return f"{share:.0f}" if share >= 10 else f"{share:.2g}"
