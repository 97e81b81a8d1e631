"""A commissioning record as it was read: measured values, meters, and lines. Knows no sums.

SI floats, temperatures in degC; `written` keeps how each was written.
"""

from __future__ import annotations

from collections.abc import Mapping

from catalogue.frozen import dataclass, field

#: Errors of meters where the record states none: common practice for hand-held ones.
VOLTAGE_ACCURACY, CURRENT_ACCURACY, TEMPERATURE_ACCURACY = 0.005, 0.02, 2.0

#: How far a resistance may lie under and over the measured one at other temperatures, charges and
#: ages, where the record does not say: the band that is usual around one stated figure.
SPREAD_UNDER, SPREAD_OVER = 0.15, 0.60


@dataclass(frozen=True, slots=True, kw_only=True)
class Meter:
    """An instrument.

    accuracy   -- share of the reading [1]; of a thermometer [K]
    resolution -- last digit [SI]; None: the last digit of each reading as it was written
    stated     -- whether the record states the accuracy
    serial     -- instrument and serial number, as the record has it
    """

    accuracy: float
    resolution: float | None = None
    stated: bool = False
    serial: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A current [A] and the voltage [V] at it."""

    current: float
    voltage: float
    written: Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class BatteryRecord:
    """What was measured of one battery.

    spread -- how far its resistance may lie under and over [1]; None: the usual band
    """

    name: str
    line: int
    open_circuit: float | None = None
    light: Reading | None = None
    heavy: Reading | None = None
    temperature: float | None = None
    state_of_charge: float | None = None
    spread: tuple[float, float] | None = None
    written: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class DropRecord:
    """Voltage [V] lost on the way to a load at its current [A]; whether it alone was drawing."""

    name: str
    line: int
    current: float
    drop: float
    alone: bool = True
    written: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class TerminalRecord:
    """Temperature [degC] of a device's terminals at a current [A] in air [degC]."""

    name: str
    line: int
    current: float
    temperature: float
    ambient: float
    written: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Charging:
    """What chargers gave: current [A] and voltage [V] measured, efficiency and power factor stated.

    Both [1]; the power factor is that of the charger's input.
    """

    current: float
    voltage: float
    efficiency: float
    power_factor: float
    written: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShoreRecord:
    """Shore current [A] with everything on, and the limit that it must keep [A].

    voltage  -- of the supply then [V]
    loads    -- AC currents of what drew straight from it, by their nameplates [A]
    charging -- what the chargers gave then; None: it is not told
    """

    line: int
    current: float
    limit: float | None = None
    voltage: float | None = None
    loads: float | None = None
    charging: Charging | None = None
    written: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """A whole record; `condition` is the system's at the measurements."""

    file: str
    date: str
    by: str = ""
    condition: str = "normal"
    voltage: Meter
    current: Meter
    temperature: Meter
    batteries: tuple[BatteryRecord, ...] = ()
    drops: tuple[DropRecord, ...] = ()
    terminals: tuple[TerminalRecord, ...] = ()
    shore: ShoreRecord | None = None
