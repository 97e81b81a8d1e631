"""The pack's card and its hooks; one line here for each rule."""

from __future__ import annotations

from collections.abc import Sequence

from coordination.rules import AmpacityBasis, Option, PackCard, Rule, hookimpl
from fusewright_iec_low_voltage import (
    bases,
    breaking_capacity,
    cable_carries_load,
    cable_withstand,
    conventional_current,
    device_carries_load,
    device_fits_cable,
    device_position,
    disconnection_time,
)
from fusewright_iec_low_voltage.options import OPTIONS
from fusewright_iec_low_voltage.parts_of_standard import EDITION
from fusewright_iec_low_voltage.scope import scope_test

CARD = PackCard(
    name="iec_low_voltage",
    title="Low-voltage installations (IEC 60364)",
    api=1,
    version="0.1.0",
    edition=EDITION,
    in_force="2017-03-01",
    scope="DC wiring of premises, cabins and vehicles under IEC 60364, parts 4-41, 4-43 and 5-52",
    not_covered=(
        "editions of these parts after 2017, and national versions",
        "earthing, bonding and the AC side",
        "whether sources truly separate from mains",
        "disconnection times above 120 V DC",
        "faults that are cleared later than within 10 ms, against the cable's withstand",
        "omission of devices under 433.3 and 434.3",
        "methods of laying that change along a run; layers on trays and ladders",
    ),
    jurisdiction="wherever a national standard follows IEC 60364",
    status="standard",
    scope_test=scope_test,
)

RULES: tuple[Rule, ...] = (
    breaking_capacity.breaking_capacity,
    cable_carries_load.cable_carries_load,
    cable_withstand.cable_withstand,
    conventional_current.conventional_current,
    device_carries_load.device_carries_load,
    device_fits_cable.device_fits_cable,
    device_position.device_position,
    disconnection_time.disconnection_time,
)


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
    return bases.BASES


@hookimpl
def fusewright_options() -> Sequence[Option]:
    """What the pack asks of a system file."""
    return OPTIONS
