"""Which installations this pack speaks of, and which of its articles.

A drawing does not show whether it is a house, a cabin, a vehicle or a boat: the file must say.
"""

from __future__ import annotations

from typing import Any

from fusewright_us_premises.options import asked, stated

USES = ("premises", "vehicle", "boat")
USE = "use"
QUESTION = "premises, vehicle or boat"


def in_scope(study: Any) -> tuple[bool | None, str, tuple[str, ...]]:
    """Whether the pack judges this system, why, and what to state where that cannot be told."""
    use = stated(study, USE)
    if use is None:
        return None, "not stated what the installation is in", (asked(USE, QUESTION),)
    if use == "boat":
        return False, "NFPA 70, 90.2(B): installations in ships and watercraft are not covered", ()
    return True, f"use: {use}", ()


def in_vehicle(study: Any) -> bool:
    """Whether the installation is stated to be in a recreational vehicle."""
    return bool(stated(study, USE) == "vehicle")
