"""The AC side as far as it feeds or is fed by the DC side: currents of chargers and loads.

All currents are effective values of a single phase. Currents are added as numbers: the sum is the
largest that loads of any power factor can make together.
"""

from __future__ import annotations

from coordination.physics.guards import require_not_negative, require_positive, require_within


def charger_input_current(
    dc_voltage: float, dc_current: float, efficiency: float, ac_voltage: float, power_factor: float
) -> float:
    """Mains current of a battery charger, from what it gives.

    U I / (eta U_ac pf)

    dc_voltage   -- of its output U [V]
    dc_current   -- of its output I [A]
    efficiency   -- given over drawn, eta [1]
    ac_voltage   -- of the mains U_ac [V]
    power_factor -- of its input pf [1]
    gives        -- mains current [A]
    Raises OutOfRange if a value is out of range, efficiency or power_factor outside 0 ... 1.
    Source: conservation of energy.

    >>> round(charger_input_current(28.4, 70.0, 0.9, 230.0, 1.0), 1)  # hand: 1988 / 207
    9.6
    """
    require_not_negative(dc_voltage=dc_voltage, dc_current=dc_current)
    require_positive(efficiency=efficiency, ac_voltage=ac_voltage, power_factor=power_factor)
    require_within(0.0, 1.0, efficiency=efficiency, power_factor=power_factor)
    return dc_voltage * dc_current / (efficiency * ac_voltage * power_factor)


def charger_output_current(
    ac_current: float, ac_voltage: float, power_factor: float, efficiency: float, dc_voltage: float
) -> float:
    """What a battery charger gives from a mains current.

    I_ac U_ac pf eta / U

    ac_current   -- from the mains I_ac [A]
    ac_voltage   -- of the mains U_ac [V]
    power_factor -- of its input pf [1]
    efficiency   -- given over drawn, eta [1]
    dc_voltage   -- of its output U [V]
    gives        -- output current [A]
    Raises OutOfRange if a value is out of range, efficiency or power_factor outside 0 ... 1.
    Source: conservation of energy.

    >>> round(charger_output_current(2.95, 230.0, 1.0, 0.9, 28.4), 1)  # hand: 610.65 / 28.4
    21.5
    """
    require_not_negative(ac_current=ac_current)
    require_positive(ac_voltage=ac_voltage, dc_voltage=dc_voltage)
    require_positive(efficiency=efficiency, power_factor=power_factor)
    require_within(0.0, 1.0, efficiency=efficiency, power_factor=power_factor)
    return ac_current * ac_voltage * power_factor * efficiency / dc_voltage


def ac_current(power: float, voltage: float, power_factor: float) -> float:
    """Current of a single-phase AC load or inverter output.

    P / (U pf)

    power        -- real power P [W]
    voltage      -- effective U [V]
    power_factor -- pf [1]
    gives        -- effective current [A]
    Raises OutOfRange if power is negative, voltage not positive, power_factor outside 0 ... 1.
    Source: conservation of energy.

    >>> round(ac_current(2000.0, 230.0, 1.0), 1)  # hand calculation: a galley of 2 kW
    8.7
    """
    require_not_negative(power=power)
    require_positive(voltage=voltage, power_factor=power_factor)
    require_within(0.0, 1.0, power_factor=power_factor)
    return power / (voltage * power_factor)


def continuous_limit(rating: float, share: float) -> float:
    """Current that a device may carry for hours, as the share of its rating that a rule allows.

    I_n k

    rating -- of the breaker, cord or inlet I_n [A]
    share  -- that is allowed for hours k [1]
    gives  -- current [A]
    Raises OutOfRange if rating is not positive or share outside 0 ... 1.
    Source: definition.

    >>> continuous_limit(30.0, 0.8)  # hand calculation: 80 % of 30 A
    24.0
    """
    require_positive(rating=rating, share=share)
    require_within(0.0, 1.0, share=share)
    return rating * share
