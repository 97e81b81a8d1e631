"""What the file may state for this pack beside the drawing, and how rules read it.

Each option answers a question that a clause asks and a drawing cannot.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import Option, PartField
from coordination.rules.kit.options import Questions

PACK = "us_small_craft"


def _flag(name: str, meaning: str) -> Option:
    return Option(name=name, shape="flag", meaning=meaning)


OPTIONS: tuple[Option, ...] = (
    _flag(
        "petrol_engine",
        "a petrol engine aboard, no outboard, for generation, mechanical power or propulsion",
    ),
    Option(
        name="use",
        shape="choice",
        meaning="what the boat is for; ashore: it is no boat",
        choices=("private", "passengers", "fishing", "ashore"),
    ),
    Option(name="built", shape="date", meaning="day the boat was built, YYYY-MM-DD"),
    _flag(
        "as_near_as_practical",
        "devices stand as near to their source of power as is physically practical",
    ),
    _flag(
        "devices_on_bus",
        "a device drawn first behind a bus, its distance not stated, stands on the bus itself",
    ),
    _flag("self_limiting", "alternators, generators and chargers limit their own current"),
    _flag(
        "next_standard_rating",
        "no standard rating lies between what the conductor allows and its device",
    ),
    _flag("cores_within_30_in", "cores of 18 AWG leave their sheath for at most 30 in, 762 mm"),
    _flag("breakers_reset_by_hand", "no breaker aboard resets itself"),
    Option(
        name="ignition",
        shape="choice",
        meaning="parts in engine spaces are protected, isolated as in 183.410(b), or neither",
        choices=("protected", "isolated", "neither"),
    ),
    _flag(
        "batteries_installed",
        "every battery is held, covered, kept from fuel and aired as 183.420 asks",
    ),
    _flag(
        "engines_tied",
        "a common conductor between the grounded cranking circuits carries each starter",
    ),
    Option(
        name="cold_cranking_amps",
        shape="quantity",
        dimension="current",
        meaning="cold-cranking amps of all connected batteries together",
    ),
    Option(
        name="panelboards",
        shape="text",
        meaning="names of the busbars that are panelboards, with commas; `none`",
    ),
    _flag("cells_tested", "tested to IEC 62133, 62619, 62620, SAE J2929, UL 1642, 1973 or 2054"),
    _flag("battery_management", "limits voltage, current, temperature; balances; reports faults"),
    _flag("alarm_before_cutoff", "an audible or visual warning comes before the disconnection"),
    _flag(
        "remote_switch_breaks_coil",
        "the remote switch itself breaks the coil supply, or the switch works by hand",
    ),
)

PART_FIELDS: tuple[PartField, ...] = (
    PartField(
        kind="breaker", name="reset_by_hand", shape="flag", meaning="stays tripped until reset"
    ),
    PartField(
        kind="battery",
        name="cold_cranking_amps",
        shape="quantity",
        dimension="current",
        meaning="cold-cranking amps of one battery",
    ),
    *(
        PartField(
            kind=kind,
            name="ignition_protected",
            shape="flag",
            meaning="marked as ignition-protected",
        )
        for kind in ("fuse", "breaker", "disconnect", "channel")
    ),
)

MEANING = {option.name: option.meaning for option in OPTIONS}

_QUESTIONS = Questions(PACK, OPTIONS)
stated, asked = _QUESTIONS.stated, _QUESTIONS.asked


def of_part(part: Any, name: str) -> Any:
    """The value of one of the pack's own fields of a part; None where it is not stated."""
    return part.extra.get(f"{PACK}.{name}")


def field(part: Any, name: str) -> str:
    """The phrase for a field of the pack's own that a part does not state."""
    return f"{part.id}: {PACK}.{name}"
