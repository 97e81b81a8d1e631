"""Says of each bank whether the standard speaks of it: up to a nominal 50 V, by its own figure."""

from __future__ import annotations

from typing import Any

from coordination.rules import (
    Card,
    Derived,
    Judgement,
    Rule,
    compare,
    given,
    note,
    rule,
)
from coordination.rules.kit.editions import dated
from coordination.rules.kit.stated import rating
from fusewright_iso_small_craft.editions import Y2020, Edition
from fusewright_iso_small_craft.scope import HIGHEST

CARD = Card(
    name="voltage-scope",
    title="Within the 50 V of the standard",
    why="The standard covers direct current up to a nominal 50 V. What is joined to a bank above "
    "it is not judged by this pack.",
    wrong='A bank of 16 lithium cells, nominal 51.2 V, taken to be inside because it is sold as '
    '"48 V".',
    right="For a part above 50 V, the standard on electric propulsion or advice from a surveyor.",
    severity="paperwork",
    source=Y2020.own(y2012="clause 1", y2020="clause 1", read_in=("2012", "2020")),
    basis="standard",
)


def of(edition: Edition) -> Rule:
    """The rule in this edition."""
    source = edition.own(y2012="clause 1", y2020="clause 1", read_in=("2012", "2020"))
    highest = given("highest nominal voltage", "U_max", HIGHEST, "V", source, "50 V")

    @rule(dated(CARD, source), each="source")
    def voltage_scope(battery: Any, study: Any) -> Judgement | None:  # noqa: ARG001
        """By the nominal voltage of the battery's part; above it a note, never a fail."""
        if battery.part is None:
            return None
        what = f"nominal voltage of {battery.name}"
        nominal = rating(battery.part, "nominal_voltage", what, "U_n", "V")
        judgement = compare(nominal, at_most=highest)
        if judgement.verdict == "fail":
            assert isinstance(nominal, Derived)
            volts = f"{nominal.value:g} V"
            return note(f"nominal {volts}, above 50 V: outside, not judged", source=source)
        return judgement

    return voltage_scope
