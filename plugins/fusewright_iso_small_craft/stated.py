"""The rating of the devices that the standard names; of anything else it is unknown."""

from __future__ import annotations

from typing import Any

from coordination.rules import Unknown, Value
from coordination.rules.kit.joined import is_fuse_or_breaker
from coordination.rules.kit.stated import rating


def device_rating(device: Any, symbol: str) -> Value:
    """Lasting current [A] that a fuse or breaker lets through; of anything else it is unknown."""
    if not is_fuse_or_breaker(device):
        what = f"{device.name}: a fuse or breaker, the standard names no other device"
        return Unknown("rating of the device", (what,))
    return rating(device.part, "rated_current", f"rating of {device.name}", symbol, "A")
