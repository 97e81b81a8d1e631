"""What the file may state for this pack beside the drawing, and how rules read it.

Each option answers a question that a clause asks and a drawing cannot.
"""

from __future__ import annotations

from coordination.rules import Option
from coordination.rules.kit.options import USE, Questions

PACK = "iec_low_voltage"

OPTIONS = (
    USE,
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

QUESTIONS = Questions(PACK, OPTIONS)
stated, asked = QUESTIONS.stated, QUESTIONS.asked
