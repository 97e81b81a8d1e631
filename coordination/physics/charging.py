"""Filling a battery, and what flows between batteries of unequal voltage.

The taper at the end of a charge is not computed: it depends on the charger's programme.
"""

from __future__ import annotations

from math import log

from coordination.physics.guards import require_not_negative, require_positive, require_within


def bulk_time(charge: float, current: float, efficiency: float) -> float:
    """Least time to put a charge back: at the full current until the end, without any taper.

    Q / (eta I)

    charge     -- that was taken Q [A*s]
    current    -- into the battery I [A]
    efficiency -- charge given back over charge put in, eta [1]
    gives      -- least time [s]
    Raises OutOfRange if charge is negative, current not positive, efficiency outside 0 ... 1.
    Source: definition.

    >>> round(bulk_time(368 * 3600.0, 70.0, 1.0) / 3600, 2)  # hand calculation: 368 Ah at 70 A
    5.26
    """
    require_not_negative(charge=charge)
    require_positive(current=current, efficiency=efficiency)
    require_within(0.0, 1.0, efficiency=efficiency)
    return charge / (efficiency * current)


def driven_current(higher: float, lower: float, resistance: float) -> float:
    """Current that a higher voltage drives into a battery: charging, or one battery another.

    (U - E) / R

    higher     -- voltage of the source U [V]
    lower      -- open-circuit voltage of the battery E [V]
    resistance -- of both and of the way there and back R [ohm]
    gives      -- current [A]
    Raises OutOfRange if a voltage is negative, or resistance not positive; 0 A if U is below E.
    Source: Ohm's law.

    >>> round(driven_current(27.2, 25.6, 0.0088))  # hand calculation: 1.6 V over 8.8 mΩ
    182
    """
    require_not_negative(higher=higher, lower=lower)
    require_positive(resistance=resistance)
    return max(higher - lower, 0.0) / resistance


def equalising_time_constant(
    charge_1: float, swing_1: float, charge_2: float, swing_2: float, resistance: float
) -> float:
    """Time in which the current between two batteries falls to 37 %, each taken for a capacitor.

    R / (dE_1 / Q_1 + dE_2 / Q_2)

    charge_1   -- between empty and full Q_1 [A*s]
    swing_1    -- of its open-circuit voltage between empty and full dE_1 [V]
    charge_2   -- of the other battery Q_2 [A*s]
    swing_2    -- of the other battery dE_2 [V]
    resistance -- of both and of the way there and back R [ohm]
    gives      -- time constant [s]
    Raises OutOfRange if a value is not positive.
    Holds for open-circuit voltages that rise in proportion to charge: a rough figure for lithium,
    whose voltage is flat between the ends.
    Source: differential equation of an RC circuit.

    >>> q = 230 * 3600.0
    >>> round(equalising_time_constant(q, 1.6, q, 1.6, 0.0088) / 60)  # hand: 8.8 mΩ × 258750 F
    38
    """
    require_positive(charge_1=charge_1, swing_1=swing_1, charge_2=charge_2, swing_2=swing_2)
    require_positive(resistance=resistance)
    return resistance / (swing_1 / charge_1 + swing_2 / charge_2)


def time_above(current: float, limit: float, time_constant: float) -> float:
    """How long a dying current stays above a limit.

    tau ln(I / I_limit)

    current       -- at the beginning I [A]
    limit         -- I_limit [A]
    time_constant -- tau [s]
    gives         -- time; 0 if it is never above [s]
    Raises OutOfRange if a value is not positive.
    Source: differential equation of an RC circuit.

    >>> round(time_above(200.0, 100.0, 60.0), 1)  # hand calculation: 60 × ln 2
    41.6
    """
    require_positive(current=current, limit=limit, time_constant=time_constant)
    return max(time_constant * log(current / limit), 0.0)
