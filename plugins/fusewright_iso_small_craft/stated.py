"""What a part or the file states, as values that carry their origin; the rest is unknown."""

from __future__ import annotations

from typing import Any

from coordination.rules import Source, Unknown, Value, given


def rating(part: Any, field: str, quantity: str, symbol: str, unit: str) -> Value:
    """A figure of a part; Unknown, naming part and field, where the part does not state it."""
    value = getattr(part, field, None)
    if value is None:
        return Unknown(quantity, (f"{part.id}: {field}",))
    source = Source("part data", f"{part.id}: {field}")
    return given(quantity, symbol, value, unit, source, part.written.get(field, ""))


def written(subject: Any, field: str, quantity: str, symbol: str, unit: str) -> Value:
    """A figure of the system file; Unknown, naming subject and field, where it is silent."""
    value = getattr(subject, field, None)
    if value is None:
        return Unknown(quantity, (f"{subject.name}: {field}",))
    source = Source("system file", f"{subject.name}: {field}")
    return given(quantity, symbol, value, unit, source, subject.written.get(field, ""))


def device_rating(device: Any, symbol: str) -> Value:
    """Lasting current [A] that a fuse or breaker lets through; of anything else it is unknown."""
    if device.kind not in ("fuse", "breaker"):
        what = f"{device.name}: a fuse or breaker, the standard names no other device"
        return Unknown("rating of the device", (what,))
    return rating(device.part, "rated_current", f"rating of {device.name}", symbol, "A")


def limit_of(source: Any, symbol: str) -> Value:
    """Largest current [A] that a self-limiting source gives."""
    field = "current_limited" if hasattr(source, "current_limited") else "output_current"
    return written(source, field, f"largest output of {source.name}", symbol, "A")
