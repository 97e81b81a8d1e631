"""The nominal voltage that a clause asks for, where it can be told."""

from __future__ import annotations

from typing import Any

from coordination.rules import Derived, Unknown, Value

#: Where the law changes (183.430, 183.435, 183.455).
LINE = 50.0


def nominal(point: str, study: Any) -> Value:
    """Nominal voltage [V] at a point by the batteries joined to it.

    Without a battery there is only a usual voltage, or the one the file calls the system by, to go
    with a charging one; where that decides on which side of 50 V the circuit lies it is unknown.
    """
    found: Value = study.sources_nominal(point)
    highest: Value = study.voltage_max(point)
    if isinstance(found, Unknown) or found.source is None:
        return found
    guessed = found.source.document != "part data"
    if guessed and found.value < LINE <= (highest.value if isinstance(highest, Derived) else LINE):
        return Unknown("nominal voltage", (f"nominal voltage at {point}: below or from 50 V on",))
    return found
