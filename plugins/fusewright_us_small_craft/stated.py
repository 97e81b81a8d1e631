"""The rating of a device under the symbol that a formula uses for it."""

from __future__ import annotations

from typing import Any

from coordination.rules import Value
from coordination.rules.kit.stated import rating


def rated_current(device: Any, symbol: str) -> Value:
    """Rated current [A] of a device."""
    return rating(device.part, "rated_current", f"rating of {device.name}", symbol, "A")
