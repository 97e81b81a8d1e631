"""Margins in text: where each input flips a verdict, nearest first, and what would settle most."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import TYPE_CHECKING

from coordination.margins.bounds import SPANS
from coordination.margins.flip_words import flip_sentence, grouped
from coordination.report.colour import Paint, plain
from coordination.report.lines import NARROWEST, labelled, wrapped
from coordination.report.summary import headline
from coordination.report.wording import clean, counted

if TYPE_CHECKING:
    from coordination.margins.answer import Told
    from coordination.margins.settling import Settled, Stretch
    from coordination.margins.survey import Margin

#: Missing data, and sets of them, that are listed; JSON has all.
_LISTED, _SETS = 15, 3
_CAUTIONS = (
    "One input is moved at a time, a band's other end along with it where it must; several "
    "together flip verdicts sooner.",
    "Every value was judged, and the verdict beyond it; between two samples a verdict that flips "
    "and flips back is not seen, nor is one whose figures are the same at both ends of a range.",
    "A pass means that these checks passed on these inputs.",
)


def margins_report(told: Told, width: int, paint: Paint = plain) -> str:
    """The whole report, ending in a newline."""
    return "\n".join(_lines(told, max(width, NARROWEST), paint)) + "\n"


def _lines(told: Told, width: int, paint: Paint) -> Iterator[str]:
    base = told.margins.base
    of = clean(told.subject or base.system.name)
    yield paint("heading", f"Margins of {of}: where one input flips a verdict")
    yield from labelled(_head(told), width, "  ")
    moving = [each for each in told.margins.margins if each.flips]
    yield from ("", paint("heading", "Nearest first"))
    if not moving:
        yield "  Nothing flips within these ranges."
    for each in moving:
        yield from _margin(each, width)
    yield from _listings(told, width)
    yield from _unknowns(told.unknowns, width, paint)
    yield from _sets(told, width)
    yield from ("", paint("heading", "Cautions"))
    yield from (line for each in _CAUTIONS for line in wrapped(each, width, "  - ", "    "))


def _head(told: Told) -> list[tuple[str, str]]:
    margins = told.margins
    base = margins.base
    checked = counted(margins.checks, "check")
    return [
        ("file", clean(base.file)),
        ("verdict", headline(base)),
        ("searched", _ranges({each.input.kind for each in margins.margins})),
        ("effort", f"{checked}, {margins.seconds:.1f} s"),
    ]


def _ranges(kinds: Iterable[str]) -> str:
    wanted = set(kinds)
    used = [(SPANS[kind].words, kind) for kind in SPANS if kind in wanted]
    groups = groupby(sorted(used, key=lambda each: each[0]), key=lambda each: each[0])
    told = (f"{', '.join(kind for _, kind in same)}: {words}" for words, same in groups)
    return "; ".join(told)


def _margin(each: Margin, width: int) -> Iterator[str]:
    for flips in grouped(each.flips):
        yield from wrapped(flip_sentence(each.input, flips), width, "  ", "    ")
    better, worse = each.more
    beyond = [f"{count} for the {way}" for count, way in ((worse, "worse"), (better, "better"))
              if count]  # fmt: skip
    if beyond:
        yield from wrapped(f"further off: {' and '.join(beyond)}", width, "      ")


def _listings(told: Told, width: int) -> Iterator[str]:
    margins = told.margins
    quiet = [each for each in margins.margins if not each.flips]
    for words, names in (
        ("Moves figures, flips nothing", [each.input.what for each in quiet if each.touched]),
        ("Moves no figure", [each.input.what for each in quiet if not each.touched]),
        ("Not searched, as it is 0", [each.what for each in margins.zero]),
        ("Left out, as the allowed checks were used up", [each.what for each in margins.left]),
    ):
        if names:
            yield ""
            told_names = "; ".join(map(clean, names))
            yield from wrapped(f"{words} ({len(names)}): {told_names}.", width, "  ", "    ")


def _unknowns(unknowns: tuple[Settled, ...], width: int, paint: Paint) -> Iterator[str]:
    if not unknowns:
        return
    yield from ("", paint("heading", "What would settle the most of what is unproven"))
    for each in unknowns[:_LISTED]:
        yield from wrapped(_datum(each), width, "  ", "    ")
    if len(unknowns) > _LISTED:
        yield f"  and {len(unknowns) - _LISTED} more"


def _datum(each: Settled) -> str:
    datum = each.datum
    settles = [
        f"{count} {how}"
        for count, how in ((len(datum.alone), "by itself"), (len(datum.others), "with other data"))
        if count
    ]
    told = decides(each)
    return f"{clean(datum.key.words)}: settles {', '.join(settles)}" + (f"; {told}" if told else "")


def decides(each: Settled) -> str:
    """What stating a datum would decide of the findings that lack nothing else."""
    if not each.stretches:
        return each.untried
    words = f", {each.trial.words}" if each.trial and each.trial.words else ""
    return clean(f"stated{words}, it " + ", ".join(map(_stretch, each.stretches)))


_DECIDED = {"pass": "passes", "fail": "fails", "unproven": "stays unproven"}


def _stretch(each: Stretch) -> str:
    verdict = _DECIDED[each.verdict]
    if each.choice:
        return f"{verdict} if {each.choice}"
    if each.low is None and each.high is None:
        return f"{verdict} at any value"
    if each.low is None:
        return f"{verdict} below {each.high.text}" if each.high else verdict
    if each.high is None:
        return f"{verdict} from {each.low.text} on"
    return f"{verdict} between {each.low.text} and {each.high.text}"


def _sets(told: Told, width: int) -> Iterator[str]:
    if told.together:
        yield "  Several together:"
    for each in told.together[:_SETS]:
        keys = " + ".join(clean(key.words) for key in each.keys)
        yield from wrapped(f"{len(each.pairs)} by {keys}", width, "    ", "      ")
