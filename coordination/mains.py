"""The alternating-current side as far as a file states it: inlets, loads, inverters' outputs.

Frozen, with line numbers, as everything in `model`, which this is a part of.
"""

from __future__ import annotations

from catalogue.frozen import dataclass
from catalogue.parts import CurrentFor
from coordination.named import Named


@dataclass(frozen=True, slots=True, kw_only=True)
class Inlet(Named):
    """Where AC comes in: a cord from a pedestal or an outlet, or a generator.

    voltage [V], frequency [Hz] -- of the supply; supply -- pedestal, outlet or generator
    breaker        -- rating of the breaker upstream [A]
    inlet, cord    -- ratings of the inlet and of its cord [A]
    cord_area [m²], cord_length [m] -- of the cord, for the sheet
    power          -- what a generator gives for hours [W]
    continuous     -- share of the breaker's rating that may be drawn for hours [1]; None: not told
    input_limit    -- set at the inverter-charger [A]
    limits         -- what that limits: "inlet", all that comes in, or "charger", its own draw
    ground_fault_trip -- of the device upstream [A], for the sheet: it is not checked
    """

    voltage: float | None = None
    frequency: float | None = None
    supply: str | None = None
    breaker: float | None = None
    inlet: float | None = None
    cord: float | None = None
    cord_area: float | None = None
    cord_length: float | None = None
    power: float | None = None
    continuous: float | None = None
    input_limit: float | None = None
    limits: str | None = None
    ground_fault_trip: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AcLoad(Named):
    """What an inlet feeds straight through: power [W] with power factor [1], or current [A]."""

    inlet: str
    power: float | None = None
    power_factor: float | None = None
    current: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Mains(Named):
    """How a charger is fed: by which inlet, its efficiency and its power factor [1]."""

    inlet: str
    efficiency: float | None = None
    power_factor: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AcOutput(Named):
    """The AC side of an inverter, as far as its conductors are protected.

    voltage [V], power_factor [1] -- of what it gives; surge -- power [W] for a time [s]
    breaker       -- rating of the breaker in its output [A]
    breaker_holds -- current that this breaker is known to carry for a time
    conductor     -- what the conductors behind that breaker may carry where they lie [A]
    """

    voltage: float | None = None
    power_factor: float | None = None
    surge_power: float | None = None
    surge_time: float | None = None
    breaker: float | None = None
    breaker_holds: CurrentFor | None = None
    conductor: float | None = None
