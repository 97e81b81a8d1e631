"""The two legs of a cable, by name."""

from __future__ import annotations

from typing import Any


def leg_of(cable: Any, study: Any, name: str) -> Any:
    """The leg called "positive" or "return" of a cable; None where it has no such conductor."""
    return next((leg for leg in study.legs(cable) if leg.name == name), None)
