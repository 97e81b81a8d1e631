"""What the file may state for this pack beside the drawing, and how rules read it.

Each option answers a question that a clause asks and a drawing cannot.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import Option

PACK = "iec_low_voltage"

OPTIONS = (
    Option(
        name="use",
        shape="choice",
        choices=("premises", "vehicle", "boat"),
        meaning="what the installation is in: premises, vehicle or boat",
    ),
    Option(
        name="method",
        shape="choice",
        choices=("A1", "A2", "B1", "B2", "C", "E", "F"),
        meaning="reference method by which the cables are laid",
    ),
    Option(
        name="insulation",
        shape="choice",
        choices=("thermoplastic", "thermosetting"),
        meaning="whether the cables' insulation melts (PVC) or not (XLPE, rubber)",
    ),
    Option(
        name="extra_low_voltage",
        shape="choice",
        choices=("selv", "pelv", "felv"),
        meaning="how the system is kept from mains",
    ),
    Option(
        name="basic_protection",
        shape="flag",
        meaning="yes: live parts are insulated or enclosed",
    ),
)

_MEANINGS = {option.name: option.meaning for option in OPTIONS}


def stated(study: Any, name: str) -> Any:
    """The value of an option in the system file; None where it is not stated."""
    return study.option(PACK, name)


def asked(name: str) -> str:
    """The phrase for what is missing: which option to state, and what it asks."""
    return f"options: {PACK}: {name} ({_MEANINGS[name]})"
