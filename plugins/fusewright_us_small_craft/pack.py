"""The pack's card and its hooks; one line here for each rule."""

from __future__ import annotations

from collections.abc import Sequence

from coordination.rules import (
    AmpacityBasis,
    Option,
    PackCard,
    PartField,
    Rule,
    StandardRatings,
    hookimpl,
)
from fusewright_us_small_craft import (
    battery_installation,
    battery_placement,
    charging_device,
    conductor_ampacity,
    conductor_size,
    device_limit,
    device_per_battery,
    device_rating,
    device_voltage,
    engine_ground_tie,
    federal_scope,
    ignition_protection,
    inspected_vessel,
    insulation_temperature,
    interrupting_capacity,
    lithium_alarm,
    lithium_cell_standard,
    lithium_management,
    lithium_remote_switch,
    options,
    panel_feed,
    practice_ampacity,
    practice_charging_device,
    practice_conductor_size,
    practice_device_rating,
    practice_placement,
    practice_scope,
    practice_voltage_drop,
    source_placement,
    table5,
    tables,
    trip_free_breaker,
)
from fusewright_us_small_craft.scope import pack_scope

_SCOPE = (
    "boats: 33 CFR 183 Subpart I where a petrol engine is aboard, and the voluntary practice of "
    "ABYC E-11 and E-13 for every boat; each rule names which of the two it is"
)
_NOT_COVERED = (
    "insulation types (183.430, 183.435), chafe, supports and terminals",
    "ignition protection outside the places drawn as engine spaces",
    "the alternating-current side and shore power",
    "motors' locked rotors, battery switches by cold-cranking amps",
    "the standards' own texts: their figures are published summaries",
)


def _card(edition: str, in_force: str, *also_not_covered: str) -> PackCard:
    return PackCard(
        name="us_small_craft",
        title="US small craft",
        api=1,
        version="0.1.0",
        edition=edition,
        in_force=in_force,
        scope=_SCOPE,
        not_covered=(*_NOT_COVERED, *also_not_covered),
        jurisdiction="United States, recreational boats",
        status="law",
        scope_test=pack_scope,
    )


#: The federal text is the same in both; the practice changed in July 2025.
CARDS: tuple[PackCard, ...] = (
    _card("2024", "2024-01-01", "what the practice asks since July 2025"),
    _card("2025", "2025-07-01"),
)

#: Rules of the federal law; asked only where it applies.
LAW: tuple[Rule, ...] = (
    federal_scope.federal_scope,
    battery_installation.battery_installation,
    battery_placement.battery_placement,
    charging_device.charging_device,
    conductor_ampacity.conductor_ampacity,
    conductor_size.conductor_size,
    device_rating.device_rating,
    device_voltage.device_voltage,
    engine_ground_tie.engine_ground_tie,
    ignition_protection.ignition_protection,
    inspected_vessel.inspected_vessel,
    source_placement.source_placement,
    trip_free_breaker.trip_free_breaker,
)

#: Rules of the voluntary practice that both editions have.
PRACTICE: tuple[Rule, ...] = (
    insulation_temperature.insulation_temperature,
    interrupting_capacity.interrupting_capacity,
    lithium_alarm.lithium_alarm,
    lithium_cell_standard.lithium_cell_standard,
    lithium_management.lithium_management,
    panel_feed.panel_feed,
    practice_ampacity.practice_ampacity,
    practice_charging_device.practice_charging_device,
    practice_conductor_size.practice_conductor_size,
    practice_device_rating.practice_device_rating,
    practice_placement.practice_placement,
    practice_scope.practice_scope,
    practice_voltage_drop.practice_voltage_drop,
)

#: What July 2025 added to it.
PRACTICE_2025: tuple[Rule, ...] = (
    device_per_battery.device_per_battery,
    lithium_remote_switch.lithium_remote_switch,
)


@hookimpl
def fusewright_pack() -> Sequence[PackCard]:
    """A card for each edition."""
    return CARDS


@hookimpl
def fusewright_rules(edition: str) -> Sequence[Rule]:
    """The law's rules and those of the practice of that edition."""
    return (*LAW, *PRACTICE, *(PRACTICE_2025 if edition == "2025" else ()))


@hookimpl
def fusewright_ampacity_bases() -> Sequence[AmpacityBasis]:
    """Ways to find a conductor's continuous current that this pack brings."""
    return (table5.BASIS,)


@hookimpl
def fusewright_standard_ratings() -> Sequence[StandardRatings]:
    """The list that "next larger standard rating" is read by; the law itself names none."""
    return (
        StandardRatings(
            name="us_small_craft, by NFPA 70 240.6(A)",
            source=device_limit.STANDARD,
            ratings=tables.standard_ratings(),
        ),
    )


@hookimpl
def fusewright_options() -> Sequence[Option]:
    """What the clauses ask and a drawing does not show."""
    return options.OPTIONS


@hookimpl
def fusewright_part_fields() -> Sequence[PartField]:
    """Markings of parts that the clauses ask for."""
    return options.PART_FIELDS
