"""What the shore current should be, from what the record tells of chargers and loads."""

from __future__ import annotations

from typing import TYPE_CHECKING

from catalogue.records import Band
from coordination.errors import OutOfRange
from coordination.measured.resistance import last_digit
from coordination.physics.measuring import charger_shore_current, least_sum_of_currents

if TYPE_CHECKING:
    from coordination.measured.record import Charging, Meter, Record, ShoreRecord


def predicted_shore(shore: ShoreRecord, record: Record) -> Band | None:
    """Shore current [A], from the least sum to the plain one; None: the record tells too little.

    Loads and chargers must both be told, a plain 0 A where there are none: what is not told is
    unknown, not nothing.
    """
    if shore.loads is None or shore.charging is None or shore.voltage is None:
        return None
    charging = shore.charging
    try:
        low, high = (
            charger_shore_current(
                volts, amps, charging.efficiency, charging.power_factor, shore.voltage
            )
            for volts, amps in _ends(charging, record)
        )
        least = least_sum_of_currents(shore.loads, low, charging.power_factor)
    except OutOfRange:
        return None
    return Band(least, shore.loads + high)


def _ends(charging: Charging, record: Record) -> tuple[tuple[float, float], tuple[float, float]]:
    """Voltage and current of the charger's output, both at their least, and both at their most."""
    volts = error_of(charging.voltage, record.voltage, charging.written["voltage"], "voltage")
    amps = error_of(charging.current, record.current, charging.written["current"], "current")
    return (
        (charging.voltage - volts, max(0.0, charging.current - amps)),
        (charging.voltage + volts, charging.current + amps),
    )


def error_of(value: float, meter: Meter, written: str, dimension: str) -> float:
    """What a meter leaves open of one reading: its gain and its last digit."""
    digit = last_digit(written, dimension) if meter.resolution is None else meter.resolution
    return value * meter.accuracy + digit
