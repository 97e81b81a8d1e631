"""The pack's card and its hooks; one line here for each rule."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from coordination.rules import AmpacityBasis, PackCard, Rule, hookimpl
from fusewright_us_premises import (
    bases,
    battery_disconnect,
    battery_label,
    conductor_protection,
    continuous_conductor,
    continuous_device,
    interrupting_rating,
    small_conductors,
    storage_disconnect,
    termination_temperature,
    vehicle_device_distance,
    vehicle_overcurrent,
)
from fusewright_us_premises.editions import Y2023, Edition

NOT_COVERED = (
    "wiring methods, enclosures, grounding, working space",
    "whether a part is listed, and for what",
    "whether a disconnect can be seen and reached from the battery",
    "taps, cords, motor circuits and the other special cases of 240.4 and 240.21",
    "the AC side; solar arrays and their own article",
    "chassis bonds and vents of a vehicle's battery",
    "the 2026 edition, and what a state or town changed when it adopted the code",
)


def card(edition: Edition) -> PackCard:
    """The pack's card in one edition."""
    return PackCard(
        name="us_premises",
        title="US premises and recreational vehicles (NFPA 70)",
        api=1,
        version="0.1.0",
        edition=edition.year,
        in_force=edition.in_force,
        scope="DC wiring of cabins, houses and recreational vehicles under NFPA 70",
        not_covered=NOT_COVERED,
    )


_RULES: tuple[Callable[[Edition], Rule], ...] = (
    battery_disconnect.of,
    battery_label.of,
    conductor_protection.of,
    continuous_conductor.of,
    continuous_device.of,
    interrupting_rating.of,
    small_conductors.of,
    termination_temperature.of,
    vehicle_device_distance.of,
    vehicle_overcurrent.of,
)


def rules(edition: Edition) -> tuple[Rule, ...]:
    """The pack's rules in one edition; article 706 came with that of 2017."""
    storage = (storage_disconnect.of(edition),) if edition.storage_disconnect else ()
    return tuple(make(edition) for make in _RULES) + storage


@hookimpl
def fusewright_pack() -> PackCard:
    """The pack's card."""
    return card(Y2023)


@hookimpl
def fusewright_rules() -> Sequence[Rule]:
    """The pack's rules."""
    return rules(Y2023)


@hookimpl
def fusewright_ampacity_bases() -> Sequence[AmpacityBasis]:
    """Ways to find a conductor's continuous current that this pack brings."""
    return bases.bases(Y2023)
