"""What a battery holds, what of it may be used, and how long a current takes to use it.

Leaves lead-acid's loss at high currents to `peukert`, and filling up again to `charging`.
"""

from __future__ import annotations

from coordination.physics.guards import require_not_negative, require_positive, require_within

#: Rise over its rating that a battery's capacity may have at a temperature.
MOST_FACTOR = 2.0


def usable_charge(capacity: float, depth: float, factor: float) -> float:
    """Charge that may be taken from a battery, at its temperature.

    C d f

    capacity -- rated C [A*s]
    depth    -- share of it that may be taken d [1]
    factor   -- share of it that there is at the temperature f [1]
    gives    -- usable charge [A*s]
    Raises OutOfRange if capacity is not positive, depth outside 0 ... 1, factor outside 0 ... 2.
    Source: definition.

    >>> round(usable_charge(460 * 3600.0, 0.8, 1.0) / 3600)  # hand calculation: 80 % of 460 Ah
    368
    """
    require_positive(capacity=capacity)
    require_within(0.0, 1.0, depth=depth)
    require_within(0.0, MOST_FACTOR, factor=factor)
    return capacity * depth * factor


def charge_energy(charge: float, voltage: float) -> float:
    """Energy of a charge given at a mean voltage.

    Q U

    charge  -- Q [A*s]
    voltage -- mean, nearly the nominal one U [V]
    gives   -- energy [J]
    Raises OutOfRange if charge is negative or voltage not positive.
    Source: definition.

    >>> round(charge_energy(234.375 * 3600.0, 12.8) / 3600)  # a pack of 3,000 Wh at 12.8 V
    3000
    """
    require_not_negative(charge=charge)
    require_positive(voltage=voltage)
    return charge * voltage


def average_current(current: float, share: float, duty: float) -> float:
    """Current that a load draws on average.

    I s d

    current -- while it runs I [A]
    share   -- of that current which it draws in a condition s [1]
    duty    -- share of the time in which it runs d [1]
    gives   -- average current [A]
    Raises OutOfRange if current is negative, a share outside 0 ... 1.
    Source: definition.

    >>> round(average_current(4.5, 1.0, 0.4), 3)  # hand calculation: a fridge, 4.5 A at 40 %
    1.8
    """
    require_not_negative(current=current)
    require_within(0.0, 1.0, share=share, duty=duty)
    return current * share * duty


def run_time(charge: float, current: float) -> float:
    """How long a charge lasts at a constant current.

    Q / I

    charge  -- usable Q [A*s]
    current -- I [A]
    gives   -- time [s]
    Raises OutOfRange if charge is negative or current not positive.
    Holds for batteries whose capacity hardly depends on the current: lithium.
    Source: definition.

    >>> round(run_time(368 * 3600.0, 14.2) / 3600, 1)  # 80 % of 460 Ah at 14.2 A: 25.9 h
    25.9
    """
    require_not_negative(charge=charge)
    require_positive(current=current)
    return charge / current
