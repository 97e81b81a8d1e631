"""What the file may state for this pack beside the drawing, and how rules read it.

Each option answers a question that a clause asks and a drawing cannot.
"""

from __future__ import annotations

from coordination.rules import Option
from coordination.rules.kit.options import USE, Questions

PACK = "us_premises"

OPTIONS = (
    USE,
    Option(
        name="wiring",
        shape="choice",
        choices=("raceway", "free-air"),
        meaning="how conductors are laid; free-air: singly, insulated, with air around",
    ),
    Option(
        name="terminals",
        shape="quantity",
        dimension="temperature",
        meaning="temperature for which every terminal without a stated limit is listed and marked",
    ),
    Option(
        name="continuous_loads",
        shape="flag",
        meaning="yes: some load lasts three hours or longer",
    ),
    Option(
        name="devices_at_batteries",
        shape="flag",
        meaning="yes: every battery's device is as near to its terminals as practicable",
    ),
    Option(
        name="label_current",
        shape="quantity",
        dimension="current",
        meaning="short-circuit current marked at the battery's disconnect; 0 A: none",
    ),
    Option(
        name="label_voltage",
        shape="quantity",
        dimension="voltage",
        meaning="nominal voltage marked at the battery's disconnect",
    ),
    Option(
        name="label_date",
        shape="date",
        meaning="date of the calculation marked at the battery's disconnect",
    ),
)

QUESTIONS = Questions(PACK, OPTIONS)
stated, asked, stated_figure = QUESTIONS.stated, QUESTIONS.asked, QUESTIONS.figure
