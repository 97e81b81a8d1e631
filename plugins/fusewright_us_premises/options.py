"""What the file may state for this pack beside the drawing, and how rules read it.

Each option answers a question that a clause asks and a drawing cannot.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import Option, Source, Unknown, Value, given

PACK = "us_premises"

OPTIONS = (
    Option(
        name="use",
        shape="choice",
        choices=("premises", "vehicle", "boat"),
        meaning="what the installation is in: premises, vehicle or boat",
    ),
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

_MEANINGS = {option.name: option.meaning for option in OPTIONS}


def stated(study: Any, name: str) -> Any:
    """The value of an option in the system file; None where it is not stated."""
    return study.option(PACK, name)


def asked(name: str) -> str:
    """The phrase for what is missing: which option to state, and what it asks."""
    return f"options: {PACK}: {name} ({_MEANINGS[name]})"


def stated_figure(study: Any, name: str, symbol: str, unit: str) -> Value:
    """An option that is a quantity [unit]; Unknown, saying what to state, where it is not."""
    value = stated(study, name)
    if value is None:
        return Unknown(_MEANINGS[name], (asked(name),))
    source = Source("system file", f"options: {PACK}: {name}")
    return given(_MEANINGS[name], symbol, float(value), unit, source)
