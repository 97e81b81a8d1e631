"""Practice: how far the voluntary standard reaches; its predecessor stopped at 50 V."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, Unknown, compare, given, note, rule
from fusewright_us_small_craft.scope import E11, practice
from fusewright_us_small_craft.voltage import nominal

CARD = Card(
    name="practice-scope",
    title="Practice: within 50 V",
    why="E-9 of 1990, E-11's predecessor, covers direct current up to 50 V. A bank of 51.2 V lies "
    "above. How far the present edition reaches was not read; its figures are applied even so.",
    wrong='A bank of 16 cells called "48 V" and taken to be below 50 V.',
    right="Ask whoever holds the standard; the figures are a floor in any case.",
    severity="paperwork",
    source=practice(E11, "scope, by its predecessor ABYC E-9 (1990)"),
    basis="practice",
)
_HIGHEST = given("highest nominal voltage", "U_max", 50.0, "V", CARD.source, "50 V")


@rule(CARD, each="source")
def practice_scope(battery: Any, study: Any) -> Judgement | None:
    """By the nominal voltage that the batteries joined to this one have themselves."""
    if battery.part is None or battery.name in study.condition.without:
        return None
    volts = nominal(battery.name, study)
    judgement = compare(volts, at_most=_HIGHEST)
    if isinstance(volts, Unknown) or judgement.verdict == "pass":
        return judgement
    what = f"nominal {volts.value:g} V: above the 50 V of the standard's predecessor"
    return note(f"{what}; its figures are applied all the same", source=CARD.source)
