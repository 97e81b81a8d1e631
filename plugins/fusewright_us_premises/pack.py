"""The pack's card and its hooks; one line here for each rule."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from coordination.rules import (
    AmpacityBasis,
    Option,
    PackCard,
    Rule,
    Section,
    StandardRatings,
    hookimpl,
)
from fusewright_us_premises import (
    bases,
    battery_disconnect,
    battery_label,
    conductor_protection,
    continuous_conductor,
    continuous_device,
    device_location,
    interrupting_rating,
    label_section,
    parallel_conductors,
    small_conductors,
    storage_disconnect,
    tables,
    termination_temperature,
    vehicle_device_distance,
    vehicle_overcurrent,
)
from fusewright_us_premises.editions import EDITIONS, Edition, named
from fusewright_us_premises.options import OPTIONS
from fusewright_us_premises.scope import scope_test

NOT_COVERED = (
    "wiring methods, enclosures, grounding, working space",
    "whether a part is listed, and for what",
    "whether a disconnect can be seen and reached from the battery",
    "taps, cords, motor circuits and the other special cases of 240.4 and 240.21",
    "insulation types and wet places (310.4, 310.10)",
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
        jurisdiction="United States, where adopted; states and towns amend it",
        status="standard",
        scope_test=scope_test,
    )


_RULES: tuple[Callable[[Edition], Rule], ...] = (
    battery_disconnect.of,
    battery_label.of,
    conductor_protection.of,
    continuous_conductor.of,
    continuous_device.of,
    device_location.of,
    interrupting_rating.of,
    parallel_conductors.of,
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
def fusewright_pack() -> Sequence[PackCard]:
    """A card for each edition."""
    return tuple(card(edition) for edition in EDITIONS)


@hookimpl
def fusewright_rules(edition: str) -> Sequence[Rule]:
    """The pack's rules in an edition."""
    return rules(named(edition))


@hookimpl
def fusewright_ampacity_bases(edition: str) -> Sequence[AmpacityBasis]:
    """The two tables of conductors."""
    return bases.bases(named(edition))


@hookimpl
def fusewright_standard_ratings(edition: str) -> Sequence[StandardRatings]:
    """Standard ratings of fuses and breakers."""
    source = named(edition).table("240.6(A)", read=False)
    ratings = tables.standard_ratings()
    return (StandardRatings(name="us-nfpa70-240.6", source=source, ratings=ratings),)


@hookimpl
def fusewright_options() -> Sequence[Option]:
    """What the pack asks of a system file."""
    return OPTIONS


@hookimpl
def fusewright_report_sections(findings: Any, edition: str) -> Sequence[Section]:
    """What to mark at the batteries' disconnects."""
    return label_section.sections(findings, named(edition))
