"""What the file may state for this pack beside the drawing, and how rules read it.

Each option answers a question that a clause asks and a drawing cannot.
"""

from __future__ import annotations

from coordination.rules import Option
from coordination.rules.kit.options import Questions

PACK = "iso_small_craft"


def of_pack() -> tuple[Option, ...]:
    """Every option, in the order of the rules that ask."""
    flags = (*_PLACES, *_DOCUMENTS)
    return (
        Option(
            name="hull_length", shape="quantity", dimension="length",
            meaning="hull length, measured by ISO 8666: the standard reaches to 24 m",
        ),
        *(Option(name=name, shape="flag", meaning=meaning) for name, meaning in flags),
        Option(
            name="panel_board", shape="text",
            meaning="name of the place that is the inside of a panel board",
        ),
        Option(
            name="iso_23625", shape="choice", choices=("2021", "2025"), default="2025",
            meaning="edition of ISO 23625: above 600 Wh in 2021, above 500 Wh in 2025",
        ),
    )  # fmt: skip


_PLACES = (
    ("nearer_impractical", "a place within 200 mm of the battery is impractical"),
    ("starter_cables_supported", "starter cables are sheathed, or supported against chafe"),
    ("self_limiting", "alternators, chargers, other charging sources limit their own current"),
    ("device_inside", "charging sources have their overcurrent device inside them"),
    ("cores_within_800_mm", "cores below 1 mm² leave their sheath for at most 800 mm"),
    ("remote_switch_override", "remote battery switches can be operated by hand too"),
    ("outboard_starting_only", "an outboard craft, circuits for starting and lights only"),
)
_DOCUMENTS = (
    ("cells_conform", "cells conform to both IEC 62619 and IEC 62620"),
    ("safety_philosophy", "a documented safety philosophy says where vented gas goes"),
    ("battery_management", "disconnects on temperature, voltage and current limits"),
    ("alarm_before_cutoff", "an audible or visual alarm comes before the disconnection"),
    ("critical_supply_kept", "critical loads keep their supply when the bank disconnects"),
)

_QUESTIONS = Questions(PACK, of_pack())
stated, asked = _QUESTIONS.stated, _QUESTIONS.asked
