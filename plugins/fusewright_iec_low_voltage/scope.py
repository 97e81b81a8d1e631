"""Which installations this pack speaks of.

A drawing does not show whether it is a house, a cabin, a vehicle or a boat: the file must say.
"""

from __future__ import annotations

from typing import Any

from fusewright_iec_low_voltage.options import asked, stated

USES = ("premises", "vehicle", "boat")
USE = "use"
QUESTION = "premises, vehicle or boat"


def in_scope(study: Any) -> tuple[bool | None, str, tuple[str, ...]]:
    """Whether the pack judges this system, why, and what to state where that cannot be told."""
    use = stated(study, USE)
    if use is None:
        return None, "not stated what the installation is in", (asked(USE, QUESTION),)
    if use == "boat":
        return False, "IEC 60364-1, clause 11: equipment on board ships is not covered", ()
    return True, f"use: {use}", ()
