"""What the shore current should be, by the record's chargers and loads or by the system file's."""

from __future__ import annotations

from typing import TYPE_CHECKING

from catalogue.records import Band
from coordination.errors import OutOfRange
from coordination.measured.resistance import last_digit
from coordination.physics.measuring import least_sum_of_currents
from coordination.physics.shore import charger_input_current
from coordination.trace import Derived

if TYPE_CHECKING:
    from coordination.measured.record import Charging, Meter, Record, ShoreRecord
    from coordination.rules.finding import Findings


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
            charger_input_current(
                volts, amps, charging.efficiency, shore.voltage, charging.power_factor
            )
            for volts, amps in _ends(charging, record)
        )
        least = least_sum_of_currents(shore.loads, low, charging.power_factor)
    except OutOfRange:
        return None
    return Band(least, shore.loads + high)


def drawn_by_file(findings: Findings, condition: str) -> tuple[Band | None, float | None]:
    """What the system file lets come in by its only inlet, and the most that it may carry [A].

    From the loads alone, the charger idle because its batteries are full, of which only the part in
    phase is sure, to loads and charger at their limits, as the settings let it come about. Several
    inlets, or figures that the file does not state, leave it unknown.
    """
    study = findings.studies.get(condition)
    inlets = tuple(findings.system.shore.values())
    budget = study.shore(inlets[0]) if study is not None and len(inlets) == 1 else None
    if budget is None:
        return None, None
    limit = budget.at_most.value if isinstance(budget.at_most, Derived) else None
    if not isinstance(budget.drawn, Derived):
        return None, limit
    sure = sum(
        current.value * (load.power_factor or 0.0)
        for load, current in budget.loads
        if isinstance(current, Derived)
    )
    return Band(min(sure, budget.drawn.value), budget.drawn.value), limit


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
