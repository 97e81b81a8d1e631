"""The pack's card and its hooks; one line here for each rule."""

from __future__ import annotations

from collections.abc import Sequence

from coordination.rules import API_VERSION, Option, PackCard, Rule, hookimpl
from fusewright_continuity import critical_supply, load_dump, options, trip_warning

CARD = PackCard(
    name="continuity",
    title="Continuity",
    api=API_VERSION,
    version="0.1.0",
    edition="first edition",
    in_force="2026-01-01",
    status="practice",
    scope="what must go on when one thing happens, whatever code applies",
    not_covered=(
        "two events at once, and a cable, joint or busbar that breaks",
        "how long a battery that is left carries its loads, and the charge it has then",
        "whether a switch or device that is drawn closed was closed",
        "surges that a source makes without losing its battery",
    ),
)

RULES: tuple[Rule, ...] = (
    critical_supply.critical_supply,
    load_dump.load_dump,
    trip_warning.trip_warning,
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
def fusewright_options() -> Sequence[Option]:
    """What the pack asks of a system file."""
    return options.OPTIONS
