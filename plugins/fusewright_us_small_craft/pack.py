"""The pack's card and its hooks; one line here for each rule."""

from __future__ import annotations

from collections.abc import Sequence

from coordination.rules import AmpacityBasis, PackCard, Rule, hookimpl
from fusewright_us_small_craft import (
    battery_installation,
    battery_placement,
    charging_device,
    conductor_ampacity,
    conductor_size,
    device_per_battery,
    device_rating,
    device_voltage,
    engine_ground_tie,
    federal_scope,
    ignition_protection,
    insulation_temperature,
    interrupting_capacity,
    lithium_alarm,
    lithium_cell_standard,
    lithium_management,
    lithium_remote_switch,
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
    trip_free_breaker,
)

CARD = PackCard(
    name="us_small_craft",
    title="US small craft",
    api=1,
    version="0.1.0",
    edition="2025",
    in_force="2025-07-01",
    scope="boats: 33 CFR 183 Subpart I where a petrol engine is aboard, and the voluntary "
    "practice of ABYC E-11 and E-13 for every boat; each rule names which of the two it is",
    not_covered=(
        "insulation types (183.430, 183.435), chafe, supports and terminals",
        "ignition protection outside the places drawn as engine spaces",
        "the alternating-current side and shore power",
        "motors' locked rotors, battery switches by cold-cranking amps",
        "the standards' own texts: their figures are published summaries",
    ),
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
def fusewright_pack() -> PackCard:
    """The pack's card."""
    return CARD


@hookimpl
def fusewright_rules() -> Sequence[Rule]:
    """The pack's rules."""
    return (*LAW, *PRACTICE, *PRACTICE_2025)


@hookimpl
def fusewright_ampacity_bases() -> Sequence[AmpacityBasis]:
    """Ways to find a conductor's continuous current that this pack brings."""
    return (table5.BASIS,)
