"""A device must open within its conventional time at 1.45 times the cable's ampacity."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Any

from coordination.rules import Card, Judgement, Value, capped, compare, derive, given, rule
from fusewright_iec_low_voltage.conductor import against_ampacity
from fusewright_iec_low_voltage.conventional import operating_current
from fusewright_iec_low_voltage.guard import Bare, guards, together
from fusewright_iec_low_voltage.parts_of_standard import overcurrent

#: How far above its ampacity a cable may be overloaded for the device's conventional time.
SHARE = 1.45
CARD = Card(
    name="conventional-current",
    title="The device opens at 1.45 times the cable's ampacity",
    why="433.1: I2 ≤ 1.45 Iz. Between its rating and the current at which it surely opens, a "
    "device lets an overload last for hours; breakers open at 1.45 or 1.30 In, gG fuses at 1.6 In.",
    wrong="A 63 A gG fuse, which may carry 100 A for an hour, on a cable for 65 A.",
    right="For gG fuses from 16 A up a cable for at least 1.10 In, or a breaker.",
    severity="paperwork",
    basis="standard",
    source=overcurrent("433.1, I2 ≤ 1.45 Iz"),
)


@rule(CARD, each="cable")
def conventional_current(cable: Any, study: Any) -> Iterator[Judgement]:
    """Operating current of what protects the cable against 1.45 ampacities, each leg in turn.

    A cable without a device is told of by device-fits-cable.
    """
    found = guards(cable, study)
    if isinstance(found, Bare):
        return
    for each in found:
        quantity = "operating current of its protection"
        current = together(each, operating_current, quantity, "I_2")
        yield from against_ampacity(cable, study, partial(_judged, current))


def _judged(current: Value, ampacity: Value) -> Judgement:
    return capped(compare(current, at_most=_overload(ampacity)))


def _overload(ampacity: Value) -> Value:
    factor = given("allowed overload", "q", SHARE, "", CARD.source)
    quantity = "overload it bears for the conventional time"
    return derive(lambda q, i: q * i, quantity, "I_145", "A", "q × I_z", factor, ampacity)
