"""Which installations this pack speaks of."""

from __future__ import annotations

from typing import Any

from coordination.rules import Scope
from fusewright_iec_low_voltage.options import QUESTIONS

_BOATS = "IEC 60364-1, clause 11: equipment on board ships is not covered (from memory)"


def scope_test(study: Any) -> Scope:
    """Whether the pack judges this system, why, and what to state where that cannot be told."""
    return QUESTIONS.scope_by_use(study, _BOATS)
