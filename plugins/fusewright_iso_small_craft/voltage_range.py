"""At the battery the voltage stays where the standard has equipment work; from memory."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, Rule, Unknown, capped, compare, given, note
from coordination.rules.kit.editions import dated
from fusewright_iso_small_craft import tables
from fusewright_iso_small_craft.editions import Y2020, Edition
from fusewright_iso_small_craft.scope import iso_rule

CARD = Card(
    name="voltage-range",
    title="Voltage at the battery",
    why="Equipment for small craft has to work from 10.5 V to 15.5 V at the battery, from 21 V to "
    "31 V in 24 V systems. Outside nobody promised that it does.",
    wrong="A bank equalised at 16 V with everything on; a tired battery under a bow thruster.",
    right="Switch equipment off for such a charge; a larger bank.",
    severity="paperwork",
    source=Y2020.carried("clause 4", read=False),
    basis="standard",
)
#: Banks of lithium cells lie up to this share [1] off the round figure.
_NEAR = 0.10


def of(edition: Edition) -> Rule:
    """The rule in this edition."""
    source = edition.carried("clause 4", read=False)

    @iso_rule(dated(CARD, source), each="source")
    def voltage_range(battery: Any, study: Any) -> Iterator[Judgement]:
        """Highest voltage while charging; lowest at its terminals with everything drawing."""
        if battery.part is None or battery.name in study.condition.without:
            return
        nominal = study.sources_nominal(battery.name)
        if isinstance(nominal, Unknown):
            yield compare(nominal, at_most=nominal)
            return
        row = _row(nominal.value)
        if row is None:
            yield note(f"no range is known for a nominal {nominal.value:g} V", source=source)
            return
        high = given("highest voltage", "U_high", row.highest, "V", source, f"{row.highest:g} V")
        low = given("lowest voltage", "U_low", row.lowest, "V", source, f"{row.lowest:g} V")
        yield capped(compare(study.voltage_max(battery.name), at_most=high))
        yield capped(compare(study.load_voltage(battery.name), at_least=low))

    return voltage_range


def _row(nominal: float) -> tables.Range | None:
    ranges = tables.voltage_ranges()
    return next((row for row in ranges if abs(nominal / row.nominal - 1) <= _NEAR), None)
