"""The pack's cards, one an edition, and its hooks; one line here for each rule."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from coordination.rules import AmpacityBasis, Option, PackCard, Rule, Section, hookimpl
from fusewright_iso_small_craft import (
    battery_switch,
    battery_switch_rating,
    charging_source,
    conductor_ampacity,
    conductor_size,
    device_placement,
    device_rating,
    drop_section,
    insulation_temperature,
    lithium_alarm,
    lithium_cells,
    lithium_critical_supply,
    lithium_management,
    lithium_scope,
    lithium_venting,
    options,
    table_a1,
    voltage_drop,
    voltage_range,
    voltage_scope,
)
from fusewright_iso_small_craft.editions import EDITIONS, Y2012, Edition, edition_of
from fusewright_iso_small_craft.scope import scope_test

NOT_COVERED = (
    "the standards' own texts: their figures are published summaries, most of them from memory",
    "electric propulsion, wiring inside an outboard's cowl, alternating current",
    "battery mounting, tilt and fuel parts nearby (ISO 10133:2012, 5.1 to 5.7)",
    "supports every 450 mm, battery cables every 300 mm (7.3, 7.4), colours, terminals",
    "rated voltage and interrupting capacity of devices: the pack fundamentals judges them",
    "the 3 % of a panel's main conductors apart from what they feed",
    "both poles of a fully insulated system; where a battery switch stands and who can reach it",
    "personal watercraft (ISO 13590)",
)


def card(edition: Edition) -> PackCard:
    """The pack's card in one edition."""
    missing = ("devices at charging sources: not known of this edition",)
    return PackCard(
        name="iso_small_craft",
        title="ISO small craft",
        api=1,
        version="0.1.0",
        edition=edition.year,
        in_force=edition.in_force,
        scope=f"small craft up to 24 m, direct current up to 50 V, by {edition.document}; lithium "
        "banks by ISO 23625",
        not_covered=(*NOT_COVERED, *(missing if edition is Y2012 else ())),
        jurisdiction="small craft, where a builder, owner or authority adopts ISO standards",
        status="standard",
        scope_test=scope_test(edition),
    )


_RULES: tuple[Callable[[Edition], Rule], ...] = (
    battery_switch.of,
    battery_switch_rating.of,
    conductor_ampacity.of,
    conductor_size.of,
    device_placement.of,
    device_rating.of,
    insulation_temperature.of,
    lithium_alarm.of,
    lithium_cells.of,
    lithium_critical_supply.of,
    lithium_management.of,
    lithium_scope.of,
    lithium_venting.of,
    voltage_drop.of,
    voltage_range.of,
    voltage_scope.of,
)


def rules(edition: Edition) -> tuple[Rule, ...]:
    """The pack's rules in one edition; the charging source's was read in that of 2020 alone."""
    more = () if edition is Y2012 else (charging_source.of(edition),)
    return tuple(make(edition) for make in _RULES) + more


@hookimpl
def fusewright_pack() -> Sequence[PackCard]:
    """The pack's cards, one an edition."""
    return [card(edition) for edition in EDITIONS]


@hookimpl
def fusewright_rules(edition: str) -> Sequence[Rule]:
    """The pack's rules in an edition."""
    return rules(edition_of(edition))


@hookimpl
def fusewright_ampacity_bases() -> Sequence[AmpacityBasis]:
    """Ways to find a conductor's continuous current that this pack brings."""
    return (table_a1.BASIS,)


@hookimpl
def fusewright_options() -> Sequence[Option]:
    """What the file may state for this pack beside the drawing."""
    return options.of_pack()


@hookimpl
def fusewright_report_sections(findings: Any) -> Sequence[Section]:
    """The physical voltage drop beside the standard's formula."""
    return drop_section.sections(findings)
