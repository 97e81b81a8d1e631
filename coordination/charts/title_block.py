"""The strip below the curves: what the sheet shows, how to read it, what it does not tell."""

from __future__ import annotations

from textwrap import wrap

from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from coordination.charts.chart import Chart
from coordination.languages.language import Language, plain

LEFT, RIGHT, BOTTOM, TOP = 0.065, 0.98, 0.02, 0.145
_SIGNS = (
    "hatched: between the earliest and the latest opening;  one line: only that side is bounded",
    "solid: stated by the part, or a standard's gates (o);  dashed: constant I²t, physics",
    "|: nothing is promised beyond;  dash-dot: what a cable bears, k²S², its insulation as hot as "
    "the load makes it",
    "diamond: a surge that must pass;  triangle: as much I²t as an inrush",
)
#: Characters of a line, and lines that there is room for.
_FACTS_WIDE, _NOTES_WIDE, _LINES = 52, 84, 8


def draw_title_block(figure: Figure, chart: Chart, words: Language) -> None:
    """Facts to the right, signs and notes to the left."""
    figure.add_artist(
        Rectangle((LEFT, BOTTOM), RIGHT - LEFT, TOP - BOTTOM, fill=False, linewidth=0.8,
                  transform=figure.transFigure)
    )
    split = 0.66
    figure.add_artist(
        Line2D([split, split], [BOTTOM, TOP], color="black", linewidth=0.8,
               transform=figure.transFigure)
    )
    lines = [line for sign in _SIGNS for line in wrap(plain(words.say(sign)), 118)]
    notes = [line for note in chart.notes for line in _note(note, words)]
    room = 9 - len(lines)
    if len(notes) > room:
        told = words.put("and {count} notes in all: see fusewright pairs", count=len(chart.notes))
        notes = [*notes[: room - 1], plain(told)]
    step = (TOP - BOTTOM - 0.012) / 9
    for number, line in enumerate((*lines, *notes)):
        figure.text(LEFT + 0.006, TOP - 0.008 - step * number, line, fontsize=6.6, va="top")
    _facts(figure, chart, split)


def _note(note: str, words: Language) -> list[str]:
    return wrap(plain(words.put("Note: {note}", note=note)), 118)


def _facts(figure: Figure, chart: Chart, left: float) -> None:
    rows = [
        (label if first else "", line)
        for label, text in chart.facts
        for first, line in _numbered(wrap(text, _FACTS_WIDE) or [""])
    ][:9]
    step = (TOP - BOTTOM - 0.012) / max(7, len(rows))
    for number, (label, text) in enumerate(rows):
        height = TOP - 0.008 - step * number
        figure.text(left + 0.006, height, label, fontsize=7, va="top", color="0.35")
        figure.text(left + 0.062, height, text, fontsize=7, va="top", fontweight="bold")


def _numbered(lines: list[str]) -> list[tuple[bool, str]]:
    return [(number == 0, line) for number, line in enumerate(lines)]
