"""A device must carry its lasting current at the temperature of its place.

Surge currents and the joints on its terminals are other rules' business.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import (
    COMMON_PRACTICE,
    Card,
    Derived,
    Judgement,
    Source,
    Unknown,
    Value,
    compare,
    derive,
    given,
    rule,
)
from coordination.rules.kit.stated import rating

CARD = Card(
    name="device-load",
    title="The device carries its lasting current",
    why="A device at more than its derated rating opens for no fault, and cooks its terminals.",
    wrong="A 200 A fuse for an inverter that draws 207 A when the battery is low, in a hot locker.",
    right="The next larger rating that the cable still allows, or a cooler place.",
    severity="outage",
    source=COMMON_PRACTICE,
)

#: Air temperature [°C] up to which a rating without derating figures is taken as it stands: the
#: standards for fuses and breakers state ratings for air no colder than this.
REFERENCE = 20.0
_REFERENCE_SOURCE = Source("UL 248-1:2011, IEC 60269-1:2006", "test conditions", read=False)


@rule(CARD, each=("device", "channel"))
def device_load(device: Any, study: Any) -> Judgement:
    """Between two listed temperatures the lower factor counts, never an interpolated one.

    Above the last row, or without rows in a place above 20 °C, the derated rating is unknown;
    a load above the full rating fails all the same.
    """
    load = study.load(device)
    rated = rating(device.part, "rated_current", "rated current", "I_n", "A")
    factor = _factor(device.part, study.ambient(device))
    if isinstance(factor, Unknown):
        full = compare(load, at_most=rated)
        if full.verdict == "fail":
            return full
    allowed = derive(
        lambda current, share: current * share,
        "rating at its place",
        "I_z",
        "A",
        "I_n k",
        rated,
        factor,
    )
    return compare(load, at_most=allowed)


def _factor(part: Any, ambient: Derived) -> Value:
    """Share of the rating that is left at this air temperature."""
    rows = sorted(enumerate(getattr(part, "derating", ())), key=lambda row: row[1][0])
    warmer = [row for row in rows if row[1][0] >= ambient.value]
    if warmer:
        colder = [row for row in rows if row[1][0] <= ambient.value]
        exact = colder and colder[-1][1][0] == ambient.value
        around = colder[-1:] if exact else [*colder[-1:], warmer[0]]
        place, (_, share) = min(around, key=lambda row: row[1][1])
        formula = f"k_listed at {ambient.symbol}"
        listed = _row(part, place, share)
        return derive(lambda k, _: k, "derating factor", "k", "", formula, listed, ambient)
    if not rows and ambient.value <= REFERENCE:
        return given("derating factor", "k", 1.0, "", _REFERENCE_SOURCE)
    return Unknown("derating factor", (f"{part.id}: derating at {ambient.value:g} °C",), (ambient,))


def _row(part: Any, place: int, share: float) -> Derived:
    path = f"derating.{place}.factor"
    source = Source("part data", f"{part.id}: {path}")
    return given("listed factor", "k_listed", share, "", source, part.written.get(path, ""))
