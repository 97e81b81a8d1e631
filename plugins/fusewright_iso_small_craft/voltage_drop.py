"""3 % of nominal lost on the way to what must work, 10 % to the rest."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from coordination.rules import (
    Card,
    Derived,
    Judgement,
    Rule,
    Source,
    Unknown,
    Value,
    capped,
    compare,
    derive,
    given,
    unproven,
)
from coordination.rules.kit.editions import dated
from coordination.rules.kit.joined import nothing
from coordination.rules.kit.zone import zone
from fusewright_iso_small_craft.editions import Y2020, Edition
from fusewright_iso_small_craft.iso_drop import ANNEX_C, drop_to
from fusewright_iso_small_craft.scope import iso_rule

CARD = Card(
    name="voltage-drop",
    title="Voltage drop",
    why="Navigation lights, bilge pumps and blowers go wrong on low voltage. What is truly lost, "
    "hot and with every joint, is judged; the standard's own formula E = 0.0164 × I × L / S stands "
    "beside it, and shows less: its constant lies below copper at 20 °C. The 10 % is from memory.",
    wrong="A length counted one way only; a sum by the formula that just fits.",
    right="A larger or shorter conductor. `critical: yes` stands for the circuits at 3 %.",
    severity="outage",
    source=Y2020.carried("4.8", read=True),
    basis="standard",
)

#: What a drop is called where the standard's formula shows more than the sum of what is lost.
BY_FORMULA = "relative voltage drop by the standard's formula"


def of(edition: Edition) -> Rule:
    """The rule in this edition; the circuits at 3 % were read in that of 2012."""
    strict, loose = edition.carried("4.8", read=True), edition.carried("4.8, 10 %", read=False)
    limits = (
        given("allowed drop", "u_max", 0.03, "", strict, "3 %"),
        given("allowed drop", "u_max", 0.10, "", loose, "10 %"),
    )

    @iso_rule(dated(CARD, strict), each="equipment")
    def voltage_drop(equipment: Any, study: Any) -> Judgement | None:
        """Where `critical` is not stated it decides only between 3 % and 10 %."""
        if equipment.cranking or not _fed(equipment, study):
            return None
        return _judge(_share(equipment, study), equipment, limits)

    return voltage_drop


def _judge(drop: Value, equipment: Any, limits: tuple[Derived, Derived]) -> Judgement:
    strict, loose = compare(drop, at_most=limits[0]), compare(drop, at_most=limits[1])
    strict = capped(strict, _weaker(drop, limits[0]))
    loose = capped(replace(loose, source=limits[1].source))
    if equipment.critical is not None:
        return strict if equipment.critical else loose
    if strict.verdict == "fail" and loose.verdict == "pass":
        return unproven(f"{equipment.name}: critical (yes: at most 3 %, no: at most 10 %)")
    return strict if strict.verdict == "pass" else loose


def _weaker(drop: Value, limit: Derived) -> Source | None:
    """What a verdict rests on: the limit's clause, or the formula where it shows more."""
    by_formula = isinstance(drop, Derived) and drop.quantity == BY_FORMULA
    return ANNEX_C if by_formula else limit.source


def _fed(equipment: Any, study: Any) -> bool:
    around = zone(equipment.name, study, nothing)
    return bool(around.batteries(study) or around.limited(study))


def _share(equipment: Any, study: Any) -> Value:
    """The larger of what is truly lost and of the standard's formula, as a share of nominal."""
    lost, nominal = study.drop(equipment), study.island_nominal(equipment.name)
    quantity = "relative voltage drop"
    by_formula = drop_to(equipment, study)
    if isinstance(lost, Unknown) or isinstance(nominal, Unknown):
        return derive(float, quantity, "u", "", "", lost, nominal)
    lost, nominal = replace(lost, symbol="U"), replace(nominal, symbol="U_n")
    if isinstance(by_formula, Unknown):
        return derive(lambda u, n: u / n, f"{quantity}; the standard's formula needs: "
                      f"{'; '.join(by_formula.missing)}", "u", "", "U / U_n", lost, nominal)
    larger = BY_FORMULA if by_formula.value > lost.value else quantity
    return derive(lambda u, e, n: max(u, e) / n, larger, "u", "", "max(U, E) / U_n",
                  lost, by_formula, nominal)  # fmt: skip
