"""Practice: 3 % of nominal lost on the way to what must work, 10 % to the rest."""

from __future__ import annotations

from typing import Any

from coordination.rules import (
    Card,
    Judgement,
    Unknown,
    Value,
    compare,
    derive,
    given,
    rule,
    unproven,
)
from fusewright_us_small_craft.scope import E11, practice
from fusewright_us_small_craft.walk import spread

CARD = Card(
    name="practice-voltage-drop",
    title="Practice: voltage drop",
    why="Panel feeders, bilge blowers, electronics and navigation lights go wrong on low voltage. "
    "Worked out here with hot conductors and everything on the way, more than the standard's own "
    "formula, which counts copper alone.",
    wrong="A length counted one way only.",
    right="A larger or shorter conductor. `critical: yes` stands for the circuits at 3 %.",
    severity="outage",
    source=practice(E11, "11.16.1.2.7"),
    basis="practice",
)
CRITICAL = given("allowed drop", "u_max", 0.03, "", CARD.source, "3 %")
OTHER = given("allowed drop", "u_max", 0.10, "", CARD.source, "10 %")


@rule(CARD, each="equipment")
def practice_voltage_drop(equipment: Any, study: Any) -> Judgement | None:
    """Where `critical` is not stated it decides only between 3 % and 10 %."""
    if equipment.cranking:
        return None
    around = spread([equipment.name], study)
    if not (around.batteries(study) or around.limited(study)):
        return None
    drop = _share(study.drop(equipment), study.island_nominal(equipment.name))
    if equipment.critical is not None:
        return compare(drop, at_most=CRITICAL if equipment.critical else OTHER)
    strict, loose = compare(drop, at_most=CRITICAL), compare(drop, at_most=OTHER)
    if strict.verdict == "fail" and loose.verdict == "pass":
        return unproven(f"{equipment.name}: critical (yes: at most 3 %, no: at most 10 %)")
    return strict if strict.verdict == "pass" else loose


def _share(drop: Value, nominal: Value) -> Value:
    if isinstance(drop, Unknown) or isinstance(nominal, Unknown):
        return derive(float, "relative voltage drop", "u", "", "", drop, nominal)
    formula = f"{drop.symbol} / {nominal.symbol}"
    return derive(lambda d, n: d / n, "relative voltage drop", "u", "", formula, drop, nominal)
