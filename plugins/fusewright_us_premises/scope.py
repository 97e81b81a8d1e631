"""Which installations this pack speaks of."""

from __future__ import annotations

from typing import Any

from coordination.rules import Scope
from fusewright_us_premises.options import QUESTIONS, stated

_BOATS = "NFPA 70, 90.2(B): installations in ships and watercraft are not covered (from memory)"


def scope_test(study: Any) -> Scope:
    """Whether the pack judges this system, why, and what to state where that cannot be told."""
    return QUESTIONS.scope_by_use(study, _BOATS)


def in_vehicle(study: Any) -> bool:
    """Whether the installation is stated to be in a recreational vehicle."""
    return bool(stated(study, "use") == "vehicle")
