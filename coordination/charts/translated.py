"""A chart in another language: everything written on it but names out of the file."""

from __future__ import annotations

from dataclasses import replace

from coordination.charts.chart import Chart, Curve
from coordination.languages.language import Language, plain

#: Facts of the title block that are names.
_NAMES = ("System", "File", "Condition", "Path", "Date")


def in_language(chart: Chart, words: Language) -> Chart:
    """The chart with everything said in a language; English comes back as it is."""
    if words.code == "en":
        return chart
    return replace(
        chart,
        title=_said(chart.title, words),
        facts=tuple(
            (_said(label, words), text if label in _NAMES else _said(text, words))
            for label, text in chart.facts
        ),
        curves=tuple(replace(each, label=_label(each, words)) for each in chart.curves),
        marks=tuple(replace(each, label=_said(each.label, words)) for each in chart.marks),
        spots=tuple(replace(each, label=_said(each.label, words)) for each in chart.spots),
        notes=tuple(_said(each, words) for each in chart.notes),
    )


def _label(curve: Curve, words: Language) -> tuple[str, ...]:
    """Its first line is a name, or several and a count of more."""
    return tuple(_said(line, words) for line in curve.label)


def _said(english: str, words: Language) -> str:
    return words.figure(plain(words.say(english)))
