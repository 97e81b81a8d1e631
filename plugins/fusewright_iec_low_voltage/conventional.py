"""The current at which a device surely opens within its conventional time.

By the family's standard; else by the part's own curve; else unknown.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import Source, Unknown, Value, derive, given
from fusewright_iec_low_voltage import tables
from fusewright_iec_low_voltage.guard import device_rating

#: Conventional time [s] of small devices, and of those above 63 A (the shortest of any family's).
SMALL, SMALL_TIME, TIME = 63.0, 3600.0, 7200.0
#: What the documents of breakers begin with, and the family they are listed under.
_BREAKERS = ("IEC 60898", "IEC 60947-2", "UL 489")


def operating_current(device: Any) -> Value:
    """Conventional operating current I_2 [A]: the family's factor times I_n, or from the curve."""
    rated = device_rating(device)
    if isinstance(rated, Unknown):
        return rated
    quantity = f"conventional operating current of {device.name}"
    family = family_of(device)
    row = next(
        (
            each
            for each in tables.conventional()
            if each.family == family and each.above < rated.value <= each.up_to
        ),
        None,
    )
    if row is not None:
        source = Source(row.document, f"{row.family}", read=row.read)
        factor = given(f"operating factor of {row.family}", "f", row.factor, "", source)
        return derive(lambda f, i: f * i, quantity, "I_2", "A", "f × I_n", factor, rated)
    return _from_curve(device.part, rated.value, quantity)


def family_of(device: Any) -> str | None:
    """The family under which a device's standard is listed; None: not told."""
    part = device.part
    if device.kind == "breaker":
        document = part.document or ""
        return next((f"breaker {each}" for each in _BREAKERS if document.startswith(each)), None)
    return part.family if device.kind == "fuse" else None


def _from_curve(part: Any, rated: float, quantity: str) -> Value:
    longest = SMALL_TIME if rated <= SMALL else TIME
    curve = getattr(part, "curve", None)
    points = [] if curve is None else [i for i, time in curve.slowest if time <= longest]
    if not points:
        return Unknown(quantity, (f"{part.id}: family, or a curve down to {longest:g} s",))
    source = Source("part data", f"{part.id}: curve")
    return given(quantity, "I_2", min(points), "A", source)
