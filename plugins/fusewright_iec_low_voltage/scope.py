"""Which installations this pack speaks of.

A drawing does not show whether it is a house, a cabin, a vehicle or a boat: the file must say.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import Scope
from fusewright_iec_low_voltage.options import asked, stated


def scope_test(study: Any) -> Scope:
    """Whether the pack judges this system, why, and what to state where that cannot be told."""
    use = stated(study, "use")
    if use is None:
        return Scope(None, "not stated what the installation is in", (asked("use"),))
    if use == "boat":
        return Scope(
            False, "IEC 60364-1, clause 11: equipment on board ships is not covered (from memory)"
        )
    return Scope(True, f"use: {use}")
