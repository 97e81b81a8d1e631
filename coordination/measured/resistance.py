"""A battery's resistance from two loads: its value, what the meters leave open, and the spread."""

from __future__ import annotations

from math import ceil, floor, log10
from typing import NamedTuple

from catalogue.quantities import NUMBER, QuantityError, parse
from catalogue.records import Band
from catalogue.units import SI_UNITS
from coordination.errors import OutOfRange
from coordination.measured.record import (
    SPREAD_OVER,
    SPREAD_UNDER,
    BatteryRecord,
    Meter,
    Reading,
    Record,
)
from coordination.physics.batteries import measured_resistance
from coordination.physics.measuring import largest_difference, least_difference
from coordination.physics.sources import OHM
from coordination.trace import Derived, Source, given


class Resistance(NamedTuple):
    """What was measured of one battery, and the band by which it is judged [Ω].

    value  -- from the two loads, with its derivation
    meters -- what the meters leave open
    band   -- that with the spread for other temperatures, charges and ages, rounded outwards
    texts  -- the band's two ends as they can be written into the file
    spread -- (under, over) as shares; `assumed` where the record does not state it
    """

    value: Derived
    meters: Band
    band: Band
    texts: tuple[str, str]
    spread: tuple[float, float]
    assumed: bool


def resistance_of(battery: BatteryRecord, record: Record) -> Resistance | None:
    """The measured resistance of a battery; None where it was not measured.

    Raises OutOfRange where the step between the loads is no larger than the meters' errors.
    """
    if battery.light is None or battery.heavy is None:
        return None
    value = _value(battery, battery.light, battery.heavy, record)
    meters = _by_meters(battery.light, battery.heavy, record)
    under, over = battery.spread or (SPREAD_UNDER, SPREAD_OVER)
    texts = (
        _outward(meters.min * (1.0 - under), up=False),
        _outward(meters.max * (1.0 + over), up=True),
    )
    band = Band(parse(texts[0], "resistance"), parse(texts[1], "resistance"))
    return Resistance(value, meters, band, texts, (under, over), battery.spread is None)


def _value(battery: BatteryRecord, light: Reading, heavy: Reading, record: Record) -> Derived:
    source = Source("commissioning record", f"{battery.name}, line {battery.line}")
    inputs = [
        given(f"{what} at the {which} load", symbol, value, unit, source, written)
        for what, which, symbol, value, unit, written in (
            ("voltage", "light", "U_1", light.voltage, "V", light.written["voltage"]),
            ("voltage", "heavy", "U_2", heavy.voltage, "V", heavy.written["voltage"]),
            ("current", "heavy", "I_2", heavy.current, "A", heavy.written["current"]),
            ("current", "light", "I_1", light.current, "A", light.written["current"]),
        )
    ]
    value = measured_resistance(light.voltage, light.current, heavy.voltage, heavy.current)
    quantity = f"resistance of {battery.name}, measured {record.date}"
    formula = "(U_1 − U_2) / (I_2 − I_1)"
    return Derived(quantity, "R", value, "Ω", formula, tuple(inputs), OHM)


def _by_meters(light: Reading, heavy: Reading, record: Record) -> Band:
    """The band that the meters leave open: the extremes of both steps. Raises OutOfRange."""
    volts = _step(light.voltage - heavy.voltage, record.voltage, "voltage", light, heavy)
    amps = _step(heavy.current - light.current, record.current, "current", light, heavy)
    for which, step in (("voltage", volts), ("current", amps)):
        if step.min <= 0.0:
            raise OutOfRange(f"step in {which}", step.max, "larger than the meter's error")
    return Band(volts.min / amps.max, volts.max / amps.min)


def _step(
    difference: float, meter: Meter, dimension: str, light: Reading, heavy: Reading
) -> Band:
    digits = [last_digit(each.written[dimension], dimension) for each in (light, heavy)]
    resolution = max(digits) if meter.resolution is None else meter.resolution
    return Band(
        least_difference(difference, meter.accuracy, resolution),
        largest_difference(difference, meter.accuracy, resolution),
    )


def last_digit(text: str, dimension: str) -> float:
    """The size [SI] of the last digit of a reading as it was written: 0.01 V of "13.25 V".

    0 where the text tells no digit.
    """
    match = NUMBER.fullmatch(text.strip())
    if match is None:
        return 0.0
    whole = match[1].lower().partition("e")
    decimals = len(whole[0].partition(".")[2])
    power = int(whole[2] or 0) - decimals
    try:
        return parse(f"1e{power} {match[2]}", dimension)
    except QuantityError:
        return 0.0


def _outward(value: float, *, up: bool) -> str:
    """A resistance [Ω] in mΩ with three digits, never on the inner side of the value."""
    assert SI_UNITS["resistance"] == "Ω"
    milli = value * 1e3
    decimals = max(0, 2 - floor(log10(milli)))
    scale = 10.0**decimals
    # A sum that is a whole step but for rounding stays where it is.
    steps = milli * scale
    whole = ceil(steps - 1e-9) if up else floor(steps + 1e-9)
    return f"{whole / scale:.{decimals}f} mΩ"
