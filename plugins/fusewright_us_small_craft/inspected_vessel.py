"""Law for vessels that carry passengers or fish: its figures are noted, not judged."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, Source, note, rule
from fusewright_us_small_craft.options import stated

CARD = Card(
    name="inspected-vessel",
    title="Law: other chapters for passengers and fishing",
    why="46 CFR binds vessels that carry passengers for hire or fish; this pack does not judge "
    "it, but names the figures that differ.",
    wrong="A charter boat checked as a private one.",
    right="Ask the inspector which chapter applies. State options: us_small_craft: use.",
    severity="paperwork",
    source=Source("46 CFR as of 2025", "183.380, 183.340, 111.50-3, 111.15-25, 28.860"),
    basis="law",
)
_PASSENGERS = (
    "46 CFR applies beside: device at most 150 % of its conductor, next larger standard one only "
    "if none fits (183.380(d)); lighting branches at most 30 A (183.380(g)); conductors of 14 AWG "
    "at least (183.340(c)); no devices in parallel (111.50-3(d))"
)
_FISHING = "46 CFR applies beside: device of a generator at most 115 % of its full load (28.860(a))"


@rule(CARD, each="source")
def inspected_vessel(source: Any, study: Any) -> Judgement | None:
    """Asked of every source, answered on the first."""
    if source is not next(iter(study.system.sources.values())):
        return None
    notes = {"passengers": _PASSENGERS, "fishing": _FISHING}
    words = notes.get(str(stated(study, "use")))
    return None if words is None else note(words, source=CARD.source)
