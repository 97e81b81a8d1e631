"""A drawn cable as the code's tables are asked for it, and which table that is."""

from __future__ import annotations

from typing import Any

from fusewright_us_premises.bases import FREE_AIR
from fusewright_us_premises.options import stated


def wired_in_free_air(cable: Any, study: Any) -> bool:
    """Whether the table for free air applies: stated by option or by the basis the file names.

    Nothing stated: the table for raceway and cable, whose figures are nowhere larger.
    """
    if cable.sheathed:
        return False
    wiring = stated(study, "wiring")
    if wiring is not None:
        return bool(wiring == "free-air")
    return bool(study.system.ampacity_basis == FREE_AIR)
