"""Margins as plain dictionaries and lists, for JSON; the shape is in `answer_types`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from coordination import __version__

if TYPE_CHECKING:
    from coordination.margins.answer_types import (
        DatumEntry,
        FlipEntry,
        InputEntry,
        MarginsAnswer,
        PairEntry,
        StretchEntry,
    )
    from coordination.margins.probe import Pair
    from coordination.margins.settling import Settled, Stretch
    from coordination.margins.survey import Flip, Margin, Margins
    from coordination.margins.unknowns import Together


class Told(NamedTuple):
    """All that is told: the margins, and what would settle what is unproven.

    subject -- the only one that was asked about; None: the whole system
    """

    margins: Margins
    unknowns: tuple[Settled, ...]
    together: tuple[Together, ...]
    subject: str | None = None


def margins_answer(told: Told) -> MarginsAnswer:
    """The whole answer."""
    margins = told.margins
    return {
        "fusewright": __version__,
        "system": margins.base.system.name,
        "file": margins.base.file,
        "verdict": margins.base.verdict,
        "subject": told.subject,
        "checks": margins.checks,
        "inputs": [_input(each) for each in margins.margins],
        "zero": [each.datum for each in margins.zero],
        "left_out": [each.datum for each in margins.left],
        "missing": [_datum(each) for each in told.unknowns],
        "together": [
            {"data": [key.words for key in each.keys], "settles": _pairs(each.pairs)}
            for each in told.together
        ],
    }


def _input(each: Margin) -> InputEntry:
    figure = each.input
    return {
        "what": figure.what,
        "datum": figure.datum,
        "line": figure.line,
        "unit": figure.unit,
        "now": figure.now,
        "searched": [each.reached[0], each.reached[1]],
        "flips": [_flip(flip) for flip in each.flips],
        "further_off": {"better": each.more[0], "worse": each.more[1]},
    }


def _flip(flip: Flip) -> FlipEntry:
    return {
        "rule": flip.rule,
        "subject": flip.subject,
        "before": flip.before,
        "after": flip.after,
        "direction": "above" if flip.upward else "below",
        "better": flip.better,
        "value": flip.shown.value,
        "text": flip.shown.text,
        "judged": [flip.still, flip.flipped],
    }


def _datum(each: Settled) -> DatumEntry:
    return {
        "datum": each.datum.key.words,
        "phrases": list(each.datum.phrases),
        "alone": _pairs(each.datum.alone),
        "with_others": _pairs(each.datum.others),
        "unit": each.trial.unit if each.trial else "",
        "decides": [_stretch(stretch) for stretch in each.stretches],
    }


def _stretch(each: Stretch) -> StretchEntry:
    low: Any = each.low and each.low.value
    high: Any = each.high and each.high.value
    return {"verdict": each.verdict, "from": low, "to": high, "choice": each.choice}


def _pairs(pairs: tuple[Pair, ...]) -> list[PairEntry]:
    return [{"rule": rule, "subject": subject} for rule, subject in pairs]
