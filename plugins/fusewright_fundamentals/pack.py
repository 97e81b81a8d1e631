"""The pack's card and its hooks; one line here for each rule."""

from __future__ import annotations

from collections.abc import Sequence

from coordination.rules import AmpacityBasis, PackCard, Rule, hookimpl
from fusewright_fundamentals import (
    battery_discharge,
    battery_surge,
    breaker_polarity,
    busbar_ampacity,
    busbar_force,
    busbar_short_time,
    cable_ampacity,
    cable_overload,
    cable_withstand,
    dc_voltage_rating,
    device_load,
    disconnect_rating,
    fault_clears,
    free_air_pair,
    interrupt_rating,
    overload_clears,
    parts_reviewed,
    return_conductor,
    ride_through,
    selectivity,
    source_protection,
    source_voltages,
    switch_inrush,
    switch_withstand,
    terminal_temperature,
    voltage_drop,
)

CARD = PackCard(
    name="fundamentals",
    title="Fundamentals",
    api=1,
    version="0.1.0",
    edition="first edition",
    in_force="2026-01-01",
    status="physics",
    scope="what physics demands of any small DC system, whatever code applies",
    not_covered=(
        "workmanship: crimps, torque, chafe, corrosion",
        "the AC side and shore power",
        "what happens inside a battery",
        "any code's or insurer's own requirements",
    ),
)

RULES: tuple[Rule, ...] = (
    battery_discharge.battery_discharge,
    battery_surge.battery_surge,
    breaker_polarity.breaker_polarity,
    busbar_ampacity.busbar_ampacity,
    busbar_force.busbar_force,
    busbar_short_time.busbar_short_time,
    cable_ampacity.cable_ampacity,
    cable_overload.cable_overload,
    cable_withstand.cable_withstand,
    dc_voltage_rating.dc_voltage_rating,
    device_load.device_load,
    disconnect_rating.disconnect_rating,
    fault_clears.fault_clears,
    interrupt_rating.interrupt_rating,
    overload_clears.overload_clears,
    parts_reviewed.parts_reviewed,
    return_conductor.return_conductor,
    ride_through.ride_through,
    selectivity.selectivity,
    source_protection.source_protection,
    source_voltages.source_voltages,
    switch_inrush.switch_inrush,
    switch_withstand.switch_withstand,
    terminal_temperature.terminal_temperature,
    voltage_drop.voltage_drop,
)

BASES: tuple[AmpacityBasis, ...] = (free_air_pair.BASIS,)


@hookimpl
def fusewright_pack() -> PackCard:
    """The pack's card."""
    return CARD


@hookimpl
def fusewright_rules() -> Sequence[Rule]:
    """The pack's rules."""
    return RULES


@hookimpl
def fusewright_ampacity_bases() -> Sequence[AmpacityBasis]:
    """Ways to find a conductor's continuous current that this pack brings."""
    return BASES
