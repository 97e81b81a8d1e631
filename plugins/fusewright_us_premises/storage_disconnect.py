"""An energy storage system needs a disconnect from all other wiring."""

from __future__ import annotations

from typing import Any

from coordination.rules import (
    Card,
    Judgement,
    Rule,
    Unknown,
    Value,
    capped,
    derive,
    note,
    rule,
    unproven,
)
from coordination.rules.kit.editions import dated
from coordination.rules.kit.joined import bank
from coordination.rules.kit.stated import rating
from fusewright_us_premises.disconnecting import above, disconnected, not_required
from fusewright_us_premises.editions import Y2023, Edition

#: Article 706 begins above this voltage [V].
VOLTS = 60.0

CARD = Card(
    name="storage-disconnect",
    title="A disconnect for the energy storage system",
    why="Article 706 applies to storage above 60 V DC and above 1 kWh: it can be isolated from all "
    "other wiring by a disconnect.",
    wrong="A 72 V bank joined to its inverter through a fuse alone.",
    right="A switch or breaker between the bank and everything else.",
    severity="paperwork",
    basis="standard",
    source=Y2023.source(Y2023.storage_disconnect),
)


def of(edition: Edition) -> Rule:
    """The rule in this edition, which must have the article."""
    source = edition.source(edition.storage_disconnect, "2020")

    @rule(dated(CARD, source), each="source")
    def storage_disconnect(battery: Any, study: Any) -> Judgement | None:
        """Every load must lie behind a switch or a breaker, where the article applies."""
        if battery.part is None or battery.name in study.condition.without:
            return None
        applies = edition.source("706.1", "2020")
        small = not_required(study.sources_nominal(battery.name), VOLTS, applies)
        if small is not None:
            return small
        energy = bank_energy(battery, study)
        if edition.storage_energy and isinstance(energy, Unknown):
            return unproven(*energy.missing)
        if not isinstance(energy, Unknown) and not above(energy.value, edition.storage_energy):
            return note(f"not required: {energy.value / 3.6e6:.3g} kWh is not above 1 kWh",
                        source=applies)  # fmt: skip
        return capped(disconnected(battery, study), source)

    return storage_disconnect


def bank_energy(battery: Any, study: Any) -> Value:
    """Energy [J] of the batteries joined to this one, by nominal voltage and capacity."""
    each = [
        derive(
            lambda u, q: u * q, f"energy of {one.name}", f"W_{n}", "J", "U_n × Q",
            rating(one.part, "nominal_voltage", f"nominal voltage of {one.name}", "U_n", "V"),
            rating(one.part, "capacity", f"capacity of {one.name}", "Q", "A·s"),
        )
        for n, one in enumerate(bank(battery, study), 1)
    ]  # fmt: skip
    formula = " + ".join(f"W_{n}" for n in range(1, len(each) + 1))
    return derive(lambda *all_: sum(all_), "energy of the bank", "W", "J", formula, *each)
