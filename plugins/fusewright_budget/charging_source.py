"""An alternator must not be asked, for hours, for more than it may give where it stands."""

from __future__ import annotations

from typing import Any

from coordination.rules import (
    COMMON_PRACTICE,
    Card,
    Derived,
    Judgement,
    compare,
    note,
    rule,
    unproven,
)

CARD = Card(
    name="charging-source",
    title="Charging source is not asked for more than it may give for hours",
    why="An alternator's figure is of a cold machine for minutes. A bank of low resistance takes "
    "all it has for hours, hot and slowly turning, and the windings cook.",
    wrong="A lithium bank straight on an alternator that is made to refill a start battery.",
    right="A regulator that watches the temperature or limits the current (regulated: yes), or a "
    "DC-DC converter of less current between alternator and bank.",
    severity="damage",
    source=COMMON_PRACTICE,
)


@rule(CARD, each="source")
def charging_source(source: Any, study: Any) -> Judgement | None:
    """Of a source that states what it may give for hours, or whether it is held to that.

    The demand is an upper bound: what least resistances and the makers' charging limits let in.
    That a regulator holds it is stated, not shown: a note.
    """
    stated = source.continuous is not None or source.derating or source.regulated is not None
    if source.part is not None or not stated or source.name in study.condition.without:
        return None
    judgement = compare(study.asked_of(source), at_most=study.continuous(source))
    if judgement.verdict == "pass" and source.continuous is None:
        # The largest current, even derated, is no figure for hours.
        judgement = unproven(f"{source.name}: continuous")
    if judgement.verdict == "pass" or source.regulated is False:
        return judgement
    if source.regulated:
        return note("the file states that it is held to what it may give", source=COMMON_PRACTICE)
    known = isinstance(judgement.found, Derived) and isinstance(judgement.required, Derived)
    return unproven(f"{source.name}: regulated") if known else judgement
