"""A drawn cable as Table 5 is asked for it: one installation a leg."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Derived, Installation
from coordination.rules.kit import installed
from fusewright_us_small_craft.voltage import nominal


def installations(cable: Any, study: Any) -> Iterator[Installation]:
    """The legs of a cable that are cables themselves, with the nominal voltage of its start."""
    volts = nominal(cable.start, study)
    known = volts.value if isinstance(volts, Derived) else None
    return installed.installations(cable, study, nominal_voltage=known)
